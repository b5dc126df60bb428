package org.intercusp.rules.appliance;

import java.util.List;
import java.util.stream.IntStream;
import org.intercusp.finding.Pointer;
import org.intercusp.rules.rule.Case;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.ApplianceType;

/** An appliance and where it stands in the file. */
record ApplianceAt(int index, Appliance appliance) {

  static final String FHIR_PATH = "Bundle.entry.resource.ofType(DeviceRequest)";

  static List<ApplianceAt> all(Case about) {
    List<Appliance> list = about.treatment().appliances();
    return IntStream.range(0, list.size()).mapToObj(i -> new ApplianceAt(i, list.get(i))).toList();
  }

  /** Those that have not been remade: what was unusual about one that has is put right. */
  static List<ApplianceAt> standing(Case about) {
    return all(about).stream().filter(at -> !about.isRemade(at.appliance())).toList();
  }

  static String parameter(String code) {
    return FHIR_PATH + ".parameter.where(code.coding.code = '" + code + "')";
  }

  static String property(String code) {
    return "Bundle.entry.resource.ofType(Device).property.where(type.coding.code = '" + code + "')";
  }

  Pointer at(Object... steps) {
    Pointer at = Pointer.of("appliances", index);
    for (Object step : steps) {
      at = step instanceof Integer i ? at.child(i) : at.child(step.toString());
    }
    return at;
  }

  String id() {
    return appliance.id();
  }

  boolean twinBlock() {
    return appliance.type() == ApplianceType.TWIN_BLOCK;
  }
}
