package org.intercusp.cli;

import java.util.List;
import org.intercusp.finding.Finding;

/** Why a file was refused, in lines for a person. */
final class Faults {

  private Faults() {}

  static String shown(String file, List<Finding> faults) {
    StringBuilder out = new StringBuilder();
    out.append(file).append(" cannot be read (").append(faults.size());
    out.append(faults.size() == 1 ? " fault)" : " faults)");
    for (Finding fault : faults) {
      out.append("\n  ").append(fault.code());
      if (!fault.pointer().text().isEmpty()) {
        out.append(" at ").append(fault.pointer().text());
      }
      out.append("\n    ").append(fault.message());
      out.append("\n    What to do: ").append(fault.remedy());
    }
    return out.toString();
  }
}
