package org.intercusp.treatment.shape;

import org.intercusp.finding.Pointer;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;
import tools.jackson.databind.node.ObjectNode;

/** True or false. */
public record Flag() implements Shape<Boolean> {

  @Override
  public @Nullable Boolean read(Node node, Pointer at, Reading reading) {
    if (node instanceof Node.Bool flag) {
      return flag.value();
    }
    reading.wrongType(at, node, "true or false");
    return null;
  }

  @Override
  public void write(Boolean value, JsonGenerator out) {
    out.writeBoolean(value);
  }

  @Override
  public ObjectNode schema(SchemaPage page) {
    return SchemaPage.object().put("type", "boolean");
  }
}
