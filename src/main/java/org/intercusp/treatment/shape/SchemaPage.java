package org.intercusp.treatment.shape;

import java.util.function.Supplier;
import tools.jackson.core.util.DefaultIndenter;
import tools.jackson.core.util.DefaultPrettyPrinter;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** A JSON Schema document (2020-12) under way, with its named definitions. */
public final class SchemaPage {

  private final ObjectNode definitions = JsonNodeFactory.instance.objectNode();

  private SchemaPage() {}

  /** The schema of a whole file. */
  public static ObjectNode of(Shape<?> root, String id, String title, String description) {
    SchemaPage page = new SchemaPage();
    ObjectNode schema = JsonNodeFactory.instance.objectNode();
    schema.put("$schema", "https://json-schema.org/draft/2020-12/schema");
    schema.put("$id", id);
    schema.put("title", title);
    schema.put("description", description);
    ObjectNode body = root.schema(page);
    body.properties().forEach(member -> schema.set(member.getKey(), member.getValue()));
    schema.set("$defs", page.definitions);
    return schema;
  }

  /** The same as text, indented, with a line end at its end. */
  public static String text(Shape<?> root, String id, String title, String description) {
    DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
    DefaultPrettyPrinter printer =
        new DefaultPrettyPrinter().withObjectIndenter(indenter).withArrayIndenter(indenter);
    return JsonMapper.builder()
            .defaultPrettyPrinter(printer)
            .build()
            .writerWithDefaultPrettyPrinter()
            .writeValueAsString(of(root, id, title, description))
        + "\n";
  }

  static ObjectNode object() {
    return JsonNodeFactory.instance.objectNode();
  }

  /** A reference to a definition that is made at its first use. */
  ObjectNode reference(String name, Supplier<ObjectNode> definition) {
    if (!definitions.has(name)) {
      definitions.putObject(name);
      definitions.set(name, definition.get());
    }
    return object().put("$ref", "#/$defs/" + name);
  }
}
