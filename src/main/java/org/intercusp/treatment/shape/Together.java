package org.intercusp.treatment.shape;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Source;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** What several members of one object must be together. */
sealed interface Together {

  void check(Map<String, Node> members, Pointer at, Reading reading);

  void describe(ObjectNode schema);

  /** At least one of several members is there. */
  record AtLeastOne(List<String> names) implements Together {
    @Override
    public void check(Map<String, Node> members, Pointer at, Reading reading) {
      if (names.stream().noneMatch(members::containsKey)) {
        reading.add(
            Fault.Code.MISSING_MEMBER, at, null, "at least one of " + String.join(", ", names));
      }
    }

    @Override
    public void describe(ObjectNode schema) {
      ArrayNode either = schema.putArray("anyOf");
      names.forEach(name -> either.addObject().putArray("required").add(name));
    }
  }

  /** Where one member has a certain text, another must be there. */
  record RequiredWhere(String member, String text, String required) implements Together {
    @Override
    public void check(Map<String, Node> members, Pointer at, Reading reading) {
      if (members.get(member) instanceof Node.Str given
          && given.text().equals(text)
          && !members.containsKey(required)) {
        reading.add(
            Fault.Code.MISSING_MEMBER,
            at.child(required),
            null,
            "a member " + required + ", since " + member + " is " + text);
      }
    }

    @Override
    public void describe(ObjectNode schema) {
      ObjectNode condition = schema.putObject("if");
      condition.putObject("properties").putObject(member).put("const", text);
      condition.putArray("required").add(member);
      schema.putObject("then").putArray("required").add(required);
    }
  }

  /** One number lies between two others. */
  record Within(String member, String least, String most) implements Together {
    @Override
    public void check(Map<String, Node> members, Pointer at, Reading reading) {
      BigDecimal value = number(members.get(member));
      BigDecimal low = number(members.get(least));
      BigDecimal high = number(members.get(most));
      if (value != null
          && low != null
          && high != null
          && (value.compareTo(low) < 0 || value.compareTo(high) > 0)) {
        reading.add(
            new Fault(
                Fault.Code.SCORE_RANGE,
                at.child(member),
                Reading.shown(new Node.Num(value.toString(), value)),
                "a number from " + low.toPlainString() + " to " + high.toPlainString(),
                null,
                Source.COMMON_PRACTICE));
      }
    }

    private static @Nullable BigDecimal number(@Nullable Node node) {
      return node instanceof Node.Num number ? number.value() : null;
    }

    @Override
    public void describe(ObjectNode schema) {
      schema.put("$comment", member + " lies between " + least + " and " + most);
    }
  }
}
