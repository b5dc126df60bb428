package org.intercusp.fhir.version;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hl7.fhir.convertors.factory.VersionConvertorFactory_40_50;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.Device.DevicePropertyComponent;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Type;
import org.hl7.fhir.r5.model.BooleanType;

/**
 * Repair: {@code Device.property} has many values in R4 and exactly one in R5, where the converter
 * keeps only the first code and no quantity. Each value becomes a property of the same type; which
 * ones belong together (a clasp's kind and its tooth) is said by element ids {@code p0.0}, {@code
 * p0.1}, ... A property without a value says that it is so.
 */
final class DeviceProperties implements Repair<Device, org.hl7.fhir.r5.model.Device> {

  private static final Pattern ID = Pattern.compile("(p\\d+)\\.\\d+");

  private final Carried carried;

  DeviceProperties(Carried carried) {
    this.carried = carried;
  }

  @Override
  public Class<Device> four() {
    return Device.class;
  }

  @Override
  public Class<org.hl7.fhir.r5.model.Device> five() {
    return org.hl7.fhir.r5.model.Device.class;
  }

  @Override
  public void up(Device from, org.hl7.fhir.r5.model.Device made) {
    made.getProperty().clear();
    for (int i = 0; i < from.getProperty().size(); i++) {
      DevicePropertyComponent property = from.getProperty().get(i);
      List<org.hl7.fhir.r5.model.DataType> values = new ArrayList<>();
      property.getValueQuantity().forEach(value -> values.add(up(value)));
      property.getValueCode().forEach(value -> values.add(up(value)));
      if (values.isEmpty()) {
        values.add(new BooleanType(true));
      }
      for (int j = 0; j < values.size(); j++) {
        var one = made.addProperty();
        one.setType((org.hl7.fhir.r5.model.CodeableConcept) up(property.getType()));
        one.setValue(values.get(j));
        one.setId("p" + i + "." + j);
      }
    }
  }

  @Override
  public void down(org.hl7.fhir.r5.model.Device from, Device made) {
    made.getProperty().clear();
    Map<String, DevicePropertyComponent> byPart = new LinkedHashMap<>();
    for (int i = 0; i < from.getProperty().size(); i++) {
      var property = from.getProperty().get(i);
      Matcher id = ID.matcher(String.valueOf(property.getId()));
      DevicePropertyComponent to =
          byPart.computeIfAbsent(
              id.matches() ? id.group(1) : "alone" + i, part -> made.addProperty());
      to.setType((CodeableConcept) VersionConvertorFactory_40_50.convertType(property.getType()));
      if (property.hasValue()) {
        value(VersionConvertorFactory_40_50.convertType(property.getValue()), to);
      }
    }
  }

  private void value(Type value, DevicePropertyComponent to) {
    if (value instanceof Quantity quantity) {
      to.addValueQuantity(quantity);
    } else if (value instanceof CodeableConcept concept) {
      to.addValueCode(concept);
    } else if (!(value instanceof org.hl7.fhir.r4.model.BooleanType said && said.booleanValue())) {
      carried.beyond("Device.property.value", value, to);
    }
  }

  private static org.hl7.fhir.r5.model.DataType up(Type value) {
    return VersionConvertorFactory_40_50.convertType(value);
  }
}
