package org.intercusp.treatment;

import java.util.Map;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.finding.Source;
import org.intercusp.finding.Value;
import org.intercusp.treatment.shape.Fault;
import org.intercusp.treatment.shape.Node;
import org.intercusp.treatment.shape.NotJson;
import org.intercusp.treatment.shape.Words;
import org.jspecify.annotations.Nullable;

/** Says faults of a file as findings, in words for a person. */
final class Refusals {

  private static final Source JSON = Source.published("RFC 8259, The JSON data interchange format");

  private Refusals() {}

  /**
   * Why a text is no JSON.
   *
   * @param start the line of the file on which the text begins, counted from 1
   */
  static Finding of(NotJson fault, long start) {
    long line = start - 1 + fault.line();
    String where = fault.line() > 0 ? " at line " + line + ", column " + fault.column() : "";
    Fault.Code code = fault.isTooLarge() ? Fault.Code.TOO_LARGE : Fault.Code.NOT_JSON;
    String what = fault.isTooLarge() ? "The file is too large or too deep" : "This is not JSON";
    return new Finding(
        code.text(),
        Severity.REFUSED,
        Pointer.ROOT,
        "",
        null,
        null,
        null,
        what + where + ": " + fault.why() + ".",
        fault.isTooLarge()
            ? "Send one treatment a file, within the limits."
            : "Send one JSON document in UTF-8.",
        fault.isTooLarge() ? Source.COMMON_PRACTICE : JSON,
        Map.of());
  }

  static Finding of(Fault fault, Node root) {
    return new Finding(
        fault.code().text(),
        Severity.REFUSED,
        fault.at(),
        subject(fault.at(), root),
        fault.value(),
        Value.of(fault.expected()),
        fault.unit(),
        message(fault),
        remedy(fault.code()),
        fault.source(),
        Map.of());
  }

  private static String message(Fault fault) {
    String place = fault.at().text().isEmpty() ? "The file" : fault.at().text();
    String found = fault.value() == null ? "" : fault.value().shown();
    return switch (fault.code()) {
      case MISSING_MEMBER -> place + " is missing: expected " + fault.expected() + ".";
      case UNKNOWN_MEMBER -> place + " is not known here: expected " + fault.expected() + ".";
      case DUPLICATE_MEMBER -> place + " stands more than once, again with " + found + ".";
      case TOO_MANY_FAULTS -> "There are " + found + " faults: " + fault.expected() + ".";
      default -> place + " is " + found + ": expected " + fault.expected() + ".";
    };
  }

  private static String remedy(Fault.Code code) {
    return switch (code) {
      case TOOTH_CODE -> "Write the tooth in two digits, quadrant first.";
      case SCORE_RANGE -> "Score again within the range of the index.";
      case UNKNOWN_MEMBER -> "Take the member out, or correct its name.";
      case WRONG_TYPE -> "Write the value as the kind that is expected.";
      case OUT_OF_RANGE -> "Correct the value.";
      case NOT_A_DATE -> "Write the date as year, month and day.";
      case MISSING_MEMBER -> "Add the member.";
      case DUPLICATE_MEMBER -> "Keep one and take the others out.";
      case DUPLICATE_ID -> "Give each entry an id of its own.";
      case UNKNOWN_REFERENCE -> "Refer to an entry of this file.";
      case NOT_JSON, TOO_LARGE, TOO_MANY_FAULTS -> "Correct these and read the file again.";
    };
  }

  /** The id of the list entry a pointer leads into, else of the treatment, else nothing. */
  private static String subject(Pointer at, Node root) {
    String[] steps = at.text().split("/", -1);
    if (!(root instanceof Node.Obj file)) {
      return "";
    }
    if (steps.length > 2
        && file.member(steps[1]) instanceof Node.Arr list
        && steps[2].matches("[0-9]{1,9}")
        && Integer.parseInt(steps[2]) < list.items().size()) {
      String id = id(list.items().get(Integer.parseInt(steps[2])));
      if (id != null) {
        return id;
      }
    }
    String own = id(file);
    return own == null ? "" : own;
  }

  private static @Nullable String id(Node node) {
    return node instanceof Node.Obj object
            && object.member("id") instanceof Node.Str id
            && Words.isId(id.text())
        ? id.text()
        : null;
  }
}
