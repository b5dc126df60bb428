package org.intercusp.fhir;

import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.Device.DevicePropertyComponent;
import org.hl7.fhir.r4.model.Device.FHIRDeviceStatus;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Type;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Side;
import org.intercusp.dentition.Tooth;
import org.intercusp.measure.Length;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Appliance.Block;
import org.intercusp.treatment.Appliance.Clasp;
import org.intercusp.treatment.Appliance.LabialBow;
import org.intercusp.treatment.Appliance.Screw;
import org.intercusp.treatment.Organisation;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** A custom-made appliance as Device: no UDI, a property a part, the batch as lot number. */
final class DeviceMapper {

  private static final Concept BLOCK = PrescriptionMapper.part("block");
  private static final Concept CLASP = PrescriptionMapper.part("clasp");
  private static final Concept BOW = PrescriptionMapper.part("labial-bow");
  private static final Concept SCREW = PrescriptionMapper.part("screw");
  private static final Concept MATERIAL = PrescriptionMapper.part("material");
  private static final Concept ALLOY = PrescriptionMapper.part("alloy");
  private static final Concept TEETH = PrescriptionMapper.part("teeth-present");

  private static final Kind<Arch> ARCH = Kind.arch();
  private static final Kind<Side> SIDE = Kind.side();
  private static final Kind<Tooth> TOOTH = Kind.tooth();
  private static final Kind<Clasp.Kind> KIND = Kind.coded(LocalSystem.CLASP_KIND);
  private static final Kind<Length> MM = Kind.quantity(Unit.MILLIMETRE);
  private static final Kind<Integer> COUNT = Kind.count(Unit.COUNT);
  private static final Kind<Integer> DAYS = Kind.count(Unit.DAY);

  void toFhir(Appliance appliance, Writing writing) {
    Device resource = new Device();
    Kind<org.intercusp.treatment.ApplianceType> type = Kind.coded(LocalSystem.APPLIANCE_TYPE);
    resource.setStatus(
        appliance.fittedOn() == null ? FHIRDeviceStatus.INACTIVE : FHIRDeviceStatus.ACTIVE);
    resource.setType((CodeableConcept) type.out().apply(appliance.type(), writing.canonicals()));
    resource.setPatient(writing.patient());
    resource.setLotNumber(appliance.batch());
    Organisation laboratory = writing.treatment().laboratory();
    if (laboratory != null) {
      resource.setManufacturer(laboratory.name());
    }
    properties(appliance, new Properties(resource, writing.canonicals()));
    writing.add(resource, Role.APPLIANCE, appliance.id());
  }

  private static void properties(Appliance appliance, Properties to) {
    for (Block block : appliance.blocks()) {
      to.start(BLOCK)
          .code(ARCH, block.arch())
          .code(SIDE, block.side())
          .code(TOOTH, block.mesialTooth())
          .code(TOOTH, block.distalTooth());
    }
    for (Clasp clasp : appliance.clasps()) {
      to.start(CLASP).code(TOOTH, clasp.tooth()).code(KIND, clasp.kind()).amount(MM, clasp.wire());
    }
    LabialBow bow = appliance.labialBow();
    if (bow != null) {
      to.start(BOW).code(ARCH, bow.arch()).amount(MM, bow.wire());
    }
    Screw screw = appliance.screw();
    if (screw != null) {
      to.start(SCREW)
          .code(ARCH, screw.arch())
          .amount(MM, screw.turn())
          .amount(COUNT, screw.plannedTurns())
          .amount(DAYS, screw.daysPerTurn());
    }
    to.start(MATERIAL).code(Kind.words(), appliance.material());
    String alloy = appliance.alloy();
    if (alloy != null) {
      to.start(ALLOY).code(Kind.words(), alloy);
    }
    List<Tooth> teeth = appliance.teethPresent();
    if (teeth != null) {
      to.start(TEETH);
      teeth.forEach(tooth -> to.code(TOOTH, tooth));
    }
  }

  void fromFhir(Device resource, Draft draft, Reading reading) {
    String path = reading.path(resource);
    draft.array("clasps");
    draft.put("batch", resource.getLotNumber(), path + ".lotNumber");
    for (int i = 0; i < resource.getProperty().size(); i++) {
      DevicePropertyComponent property = resource.getProperty().get(i);
      Parts from = new Parts(property, path + ".property[" + i + "]", reading);
      CodeableConcept type = property.getType();
      if (reading.is(BLOCK, type)) {
        Draft block = draft.element("blocks", from.path);
        from.code(block, "arch", ARCH);
        from.code(block, "side", SIDE);
        from.code(block, "mesialTooth", TOOTH);
        from.code(block, "distalTooth", TOOTH);
      } else if (reading.is(CLASP, type)) {
        Draft clasp = draft.element("clasps", from.path);
        from.code(clasp, "tooth", TOOTH);
        from.code(clasp, "kind", KIND);
        from.amount(clasp, "wire", MM);
      } else if (reading.is(BOW, type)) {
        Draft bow = draft.object("labialBow", from.path);
        from.code(bow, "arch", ARCH);
        from.amount(bow, "wire", MM);
      } else {
        more(type, from, draft, reading);
      }
    }
  }

  private static void more(CodeableConcept type, Parts from, Draft draft, Reading reading) {
    if (reading.is(SCREW, type)) {
      Draft screw = draft.object("screw", from.path);
      from.code(screw, "arch", ARCH);
      from.amount(screw, "turn", MM);
      from.amount(screw, "plannedTurns", COUNT);
      from.amount(screw, "daysPerTurn", DAYS);
    } else if (reading.is(MATERIAL, type)) {
      from.code(draft, "material", Kind.words());
    } else if (reading.is(ALLOY, type)) {
      from.code(draft, "alloy", Kind.words());
    } else if (reading.is(TEETH, type)) {
      draft.array("teethPresent");
      for (JsonNode tooth = from.next(TOOTH); tooth != null; tooth = from.next(TOOTH)) {
        draft.add("teethPresent", tooth, from.path);
      }
    }
  }

  /** Properties being written: each started by its part, codes and amounts in a fixed order. */
  private static final class Properties {
    private final Device device;
    private final Canonicals canonicals;
    private final List<DevicePropertyComponent> started = new ArrayList<>();

    private Properties(Device device, Canonicals canonicals) {
      this.device = device;
      this.canonicals = canonicals;
    }

    Properties start(Concept part) {
      started.add(device.addProperty().setType(part.concept(canonicals)));
      return this;
    }

    <V> Properties code(Kind<V> kind, V value) {
      last().addValueCode((CodeableConcept) kind.out().apply(value, canonicals));
      return this;
    }

    <V> Properties amount(Kind<V> kind, V value) {
      last().addValueQuantity((Quantity) kind.out().apply(value, canonicals));
      return this;
    }

    private DevicePropertyComponent last() {
      return started.get(started.size() - 1);
    }
  }

  /** The codes and amounts of one property being read, in their order. */
  private static final class Parts {
    private final DevicePropertyComponent property;
    private final String path;
    private final Reading reading;
    private int codes;
    private int amounts;

    private Parts(DevicePropertyComponent property, String path, Reading reading) {
      this.property = property;
      this.path = path;
      this.reading = reading;
    }

    void code(Draft draft, String member, Kind<?> kind) {
      String at = path + ".valueCode[" + codes + "]";
      draft.put(member, next(kind), at);
    }

    @Nullable JsonNode next(Kind<?> kind) {
      if (codes >= property.getValueCode().size()) {
        return null;
      }
      String at = path + ".valueCode[" + codes + "]";
      return reading.value(kind, property.getValueCode().get(codes++), at);
    }

    void amount(Draft draft, String member, Kind<?> kind) {
      String at = path + ".valueQuantity[" + amounts + "]";
      Type value =
          amounts < property.getValueQuantity().size()
              ? property.getValueQuantity().get(amounts++)
              : null;
      draft.put(member, reading.value(kind, value, at), at);
    }
  }
}
