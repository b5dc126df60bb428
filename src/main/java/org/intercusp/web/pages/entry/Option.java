package org.intercusp.web.pages.entry;

import java.util.Arrays;
import java.util.List;
import org.intercusp.treatment.Coded;

/**
 * One choice of a list.
 *
 * @param code as the treatment file writes it
 * @param label as a person reads it
 */
public record Option(String code, String label) {

  static List<Option> of(Coded... values) {
    return Arrays.stream(values).map(value -> plain(value.code())).toList();
  }

  static Option plain(String code) {
    return new Option(code, code.replace('-', ' '));
  }
}
