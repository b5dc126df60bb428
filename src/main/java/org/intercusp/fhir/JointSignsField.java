package org.intercusp.fhir;

import java.util.List;
import org.hl7.fhir.r4.model.Observation;
import org.intercusp.treatment.JointSign;

/** Joint signs: none found is said, and differs from nobody having looked. */
final class JointSignsField<T> extends Field<T> {

  private static final Kind<String> KIND = Kind.codeOf(LocalSystem.JOINT_SIGN);

  private final Panel.Getter<T, List<JointSign>> getter;

  JointSignsField(Panel.Getter<T, List<JointSign>> getter) {
    this.getter = getter;
  }

  @Override
  boolean write(T element, Observation to, Canonicals canonicals) {
    List<JointSign> signs = getter.of(element);
    if (signs == null) {
      return false;
    }
    if (signs.isEmpty()) {
      to.setValue(KIND.out().apply("none-found", canonicals));
    }
    for (JointSign sign : signs) {
      component(to, Codes.JOINT_SIGN, canonicals)
          .setValue(KIND.out().apply(sign.code(), canonicals));
    }
    return true;
  }

  @Override
  void read(Observation from, Draft draft, Reading reading) {
    collect(from, Codes.JOINT_SIGN, KIND, draft, "jointSigns", reading);
  }
}
