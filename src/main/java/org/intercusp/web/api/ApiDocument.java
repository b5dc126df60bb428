package org.intercusp.web.api;

import static java.util.Map.entry;

import io.swagger.v3.oas.models.OpenAPI;
import io.swagger.v3.oas.models.Operation;
import io.swagger.v3.oas.models.PathItem;
import io.swagger.v3.oas.models.PathItem.HttpMethod;
import io.swagger.v3.oas.models.headers.Header;
import io.swagger.v3.oas.models.info.Info;
import io.swagger.v3.oas.models.media.Content;
import io.swagger.v3.oas.models.media.MediaType;
import io.swagger.v3.oas.models.media.Schema;
import io.swagger.v3.oas.models.parameters.RequestBody;
import io.swagger.v3.oas.models.responses.ApiResponse;
import io.swagger.v3.oas.models.responses.ApiResponses;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springdoc.core.customizers.OpenApiCustomizer;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Component;

/**
 * Puts into the OpenAPI document what the methods of the doors do not show: which statuses come,
 * what is sent and answered, and that {@code /fhir} tells of itself.
 */
@Component
class ApiDocument implements OpenApiCustomizer {

  /**
   * Statuses that any path may answer: nobody known, not allowed, another method, another host, too
   * often, ours, a database that is away.
   */
  private static final String ANYWHERE = "401 403 405 406 421 429 500 503";

  /** Of these statuses the time to come again is told. */
  private static final Set<String> LATER = Set.of("429", "503");

  /** Method, path, what comes when it goes well | faults | what is sent | what is answered. */
  private static final String OPERATIONS =
      """
      POST /check                                           200 | 400 413 415 422 | file sheet | json
      GET /treatments                                       200 | 400 422 | | json
      POST /treatments                                      200 201 | 400 409 413 415 422 | file sheet | json
      GET /treatments/{id}                                  200 304 | 400 404 409 | | json
      PUT /treatments/{id}                                  200 | 400 404 409 412 413 415 422 428 | file | json
      GET /treatments/{id}/history                          200 | 400 404 409 | | json
      GET /treatments/{id}/figures                          200 | 400 404 409 | | json
      GET /treatments/{id}/findings                         200 | 400 404 409 | | json
      GET /treatments/{id}/bundle                           200 304 | 400 404 409 | | fhir json
      GET /treatments/{id}/summary                          200 | 400 404 409 | | html pdf fhir
      GET /treatments/{id}/deliveries                       200 | 400 404 409 | | json
      POST /treatments/{id}/deliveries                      200 202 | 400 404 409 413 415 422 | json | json
      GET /treatments/{id}/proposals                        200 304 | 400 404 409 | | json
      POST /treatments/{id}/proposals/{number}/accept       200 | 400 404 409 412 413 415 422 428 | json | json
      POST /treatments/{id}/proposals/{number}/decline      200 | 400 404 409 415 | nothing | json
      GET /treatments/{id}/erasure                          200 | 400 404 409 | | json
      POST /treatments/{id}/erasure                         200 | 400 404 409 413 415 422 | json | json
      GET /deliveries                                       200 | 400 | | json
      GET /deliveries/{id}                                  200 | 404 | | json
      POST /deliveries/{id}/retry                           202 | 404 409 415 | nothing | json
      GET /recipients                                       200 | | | json
      GET /rules                                            200 | | | json
      POST /registry/outcomes                               202 | 413 415     | lines ndjson json | json
      GET /registry/outcomes/{id}                           200 | 404 | | json
      GET /registry/report                                  200 | 400 404 | | json csv fhir text html
      GET /export                                           200 | 400 404 | | zip
      POST /import                                          201 | 413 415 422 | zip | json
      POST /backup                                          200 | 409 415 | nothing | zip
      GET /.well-known/jwks.json                            200 | | | json
      """;

  private static final Map<String, String> TYPES =
      Map.ofEntries(
          entry("json", "application/json"),
          entry("file", "application/json"),
          entry("sheet", "text/csv"),
          entry("lines", "application/x-ndjson"),
          entry("ndjson", "application/ndjson"),
          entry("fhir", "application/fhir+json"),
          entry("html", "text/html"),
          entry("pdf", "application/pdf"),
          entry("csv", "text/csv"),
          entry("text", "text/plain"),
          entry("zip", "application/zip"));

  private record Line(
      HttpMethod method,
      String path,
      List<String> well,
      List<String> faults,
      List<String> sent,
      List<String> answered) {

    static Line of(String text) {
      String[] parts = text.split("\\|", -1);
      String[] head = parts[0].strip().split("\\s+", 3);
      return new Line(
          HttpMethod.valueOf(head[0]),
          head[1],
          words(head[2]),
          words(parts[1] + " " + ANYWHERE),
          words(parts[2]),
          words(parts[3]));
    }

    private static List<String> words(String text) {
      return Arrays.stream(text.strip().split("\\s+")).filter(one -> !one.isEmpty()).toList();
    }
  }

  @Override
  public void customise(OpenAPI document) {
    document.setInfo(
        new Info()
            .title("Intercusp")
            .version(Program.VERSION)
            .description(
                "Functional appliance treatments: records in, figures and findings out, deliveries"
                    + " and the registry. FHIR is served below /fhir, and /fhir/metadata says what"
                    + " is there. A treatment file is described by the JSON Schema treatment-1.json"
                    + " of the program, figures and findings by examination-1.json, an outcome record by"
                    + " outcome-1.json, the registry's report by registry-report-1.json."));
    document.getPaths().keySet().removeIf(path -> path.startsWith("/fhir"));
    Map<String, Line> lines =
        OPERATIONS
            .lines()
            .map(Line::of)
            .collect(Collectors.toMap(ApiDocument::key, Function.identity()));
    document.getPaths().forEach((path, item) -> describe(path, item, lines));
  }

  private static String key(Line line) {
    return line.method() + " " + line.path();
  }

  private static void describe(String path, PathItem item, Map<String, Line> lines) {
    item.readOperationsMap()
        .forEach(
            (method, operation) -> {
              Line line = lines.get(method + " " + path);
              if (line == null) {
                throw new IllegalStateException("not described: " + method + " " + path);
              }
              describe(operation, line);
            });
  }

  private static void describe(Operation operation, Line line) {
    operation.setOperationId(id(line));
    operation.setTags(List.of(line.path().split("/", -1)[1]));
    operation.setRequestBody(body(line));
    ApiResponses responses = new ApiResponses();
    for (String status : line.well()) {
      ApiResponse response = response(status);
      responses.put(
          status, status.equals("304") ? response : response.content(content(line.answered())));
    }
    for (String status : line.faults()) {
      responses.put(status, response(status).content(problem()));
    }
    operation.setResponses(responses);
  }

  private static String id(Line line) {
    return (line.method() + line.path())
        .replaceAll("[{}.]", "")
        .replaceAll("[/-]+", "_")
        .toLowerCase(Locale.ROOT);
  }

  private static ApiResponse response(String status) {
    ApiResponse response = new ApiResponse().description(reason(status));
    if (LATER.contains(status)) {
      response.addHeaderObject(
          "Retry-After",
          new Header()
              .description("seconds until it is worth asking again")
              .schema(typed("string")));
    }
    return response;
  }

  private static String reason(String status) {
    // The framework has no name for 421 (RFC 9110, 15.5.20).
    return status.equals("421")
        ? "Misdirected Request"
        : HttpStatus.valueOf(Integer.parseInt(status)).getReasonPhrase();
  }

  /** Also where nothing is sent the type is asked for, since no other site can send it unasked. */
  private static @Nullable RequestBody body(Line line) {
    if (line.sent().isEmpty()) {
      return null;
    }
    boolean nothing = line.sent().contains("nothing");
    return new RequestBody()
        .required(!nothing)
        .description(nothing ? "nothing, with Content-Type: application/json" : null)
        .content(content(nothing ? List.of("json") : line.sent()));
  }

  private static Content content(List<String> words) {
    Content content = new Content();
    for (String word : words) {
      content.addMediaType(TYPES.get(word), new MediaType().schema(schema(word)));
    }
    return content;
  }

  private static Schema<?> schema(String word) {
    return switch (word) {
      // Objects and lists, as the fields of their own say.
      case "json", "fhir" -> new Schema<>();
      case "file" -> typed("object").description("a treatment file: treatment-1.json");
      case "pdf", "zip" -> typed("string").format("binary");
      default -> typed("string");
    };
  }

  private static Schema<?> typed(String type) {
    Schema<?> schema = new Schema<>();
    schema.addType(type);
    return schema;
  }

  private static Content problem() {
    Schema<?> problem =
        typed("object").description("RFC 9457, with findings[], empty where there are none");
    return new Content().addMediaType("application/problem+json", new MediaType().schema(problem));
  }
}
