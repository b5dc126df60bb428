package org.intercusp.fhir;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.intercusp.finding.Finding;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.databind.json.JsonMapper;

/** Puts what was read out of a Bundle through the same checks as a treatment file. */
final class Judging {

  private static final JsonMapper JSON =
      JsonMapper.builder().enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN).build();

  private final Reading reading;
  private final Draft root;

  Judging(Reading reading, Draft root) {
    this.reading = reading;
    this.root = root;
  }

  ReadBack judged(Function<Treatment, List<Unplaced>> unplaced) {
    Map<String, String> origins = new HashMap<>();
    root.origins("", origins::putIfAbsent);
    List<Finding> faults = new ArrayList<>(reading.faults());
    Treatment treatment = null;
    ReadResult result = new TreatmentReader().read(JSON.writeValueAsBytes(root.json()));
    if (result instanceof ReadResult.Accepted accepted) {
      treatment = accepted.treatment();
    } else if (result instanceof ReadResult.Refused refused) {
      ReadBack placed = new ReadBack(null, List.of(), List.of(), origins);
      refused.faults().forEach(fault -> faults.add(located(fault, placed)));
    }
    if (treatment == null || !faults.isEmpty()) {
      return new ReadBack(null, faults, List.of(), origins);
    }
    return new ReadBack(treatment, faults, unplaced.apply(treatment), origins);
  }

  private static Finding located(Finding fault, ReadBack placed) {
    String message =
        placed.expression(fault.pointer()).map(at -> at + ": ").orElse("") + fault.message();
    return new Finding(
        fault.code(),
        fault.severity(),
        fault.pointer(),
        fault.subject(),
        fault.value(),
        fault.limit(),
        fault.unit(),
        message,
        fault.remedy(),
        fault.source(),
        fault.values());
  }
}
