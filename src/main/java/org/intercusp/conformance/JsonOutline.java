package org.intercusp.conformance;

import java.util.ArrayList;
import java.util.List;
import org.intercusp.conformance.Outline.Parameter;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.core.json.JsonFactory;

/** The {@link Outline} of an admitted JSON document, in one pass and without a tree. */
final class JsonOutline {

  private static final JsonFactory JSON = new JsonFactory();

  private final String text;
  private @Nullable String type;
  private final List<Parameter> parameters = new ArrayList<>();

  JsonOutline(String text) {
    this.text = text;
  }

  Outline read() {
    try (JsonParser parser = JSON.createParser(ObjectReadContext.empty(), text)) {
      parser.nextToken();
      while (parser.nextToken() == JsonToken.PROPERTY_NAME) {
        String member = parser.currentName();
        JsonToken value = parser.nextToken();
        if (member.equals("resourceType") && value == JsonToken.VALUE_STRING) {
          type = parser.getString();
        } else if (member.equals("parameter") && value == JsonToken.START_ARRAY) {
          list(parser);
        } else {
          parser.skipChildren();
        }
      }
    }
    return new Outline(type, Outline.PARAMETERS.equals(type) ? parameters : List.of());
  }

  private void list(JsonParser parser) {
    for (int i = 0; parser.nextToken() != JsonToken.END_ARRAY; i++) {
      if (parser.currentToken() == JsonToken.START_OBJECT) {
        parameters.add(parameter(parser, "Parameters.parameter[" + i + "]"));
      } else {
        parser.skipChildren();
      }
    }
  }

  private Parameter parameter(JsonParser parser, String path) {
    String name = "";
    String value = null;
    Excerpt resource = null;
    Spot spot = spot(parser);
    while (parser.nextToken() == JsonToken.PROPERTY_NAME) {
      String member = parser.currentName();
      JsonToken token = parser.nextToken();
      if (member.equals("name") && token == JsonToken.VALUE_STRING) {
        name = parser.getString();
      } else if (member.startsWith("value") && token.isScalarValue()) {
        value = parser.getString();
        spot = spot(parser);
      } else if (member.equals("resource") && token == JsonToken.START_OBJECT) {
        resource = resource(parser, path + ".resource");
      } else {
        parser.skipChildren();
      }
    }
    String expression = value == null ? path : path + ".value";
    return new Parameter(name, expression, value, spot.line(), spot.column(), resource);
  }

  private Excerpt resource(JsonParser parser, String path) {
    int start = Math.toIntExact(parser.currentTokenLocation().getCharOffset());
    String inside = "";
    while (parser.nextToken() == JsonToken.PROPERTY_NAME) {
      String member = parser.currentName();
      JsonToken token = parser.nextToken();
      if (member.equals("resourceType") && token == JsonToken.VALUE_STRING) {
        inside = parser.getString();
      } else {
        parser.skipChildren();
      }
    }
    int end = Math.toIntExact(parser.currentLocation().getCharOffset());
    return Excerpt.of(text, start, end, Format.JSON, inside, path);
  }

  private static Spot spot(JsonParser parser) {
    TokenStreamLocation at = parser.currentTokenLocation();
    return Spot.at(at.getLineNr(), at.getColumnNr());
  }
}
