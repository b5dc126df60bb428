package org.intercusp.fhir;

import java.util.List;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Observation.ObservationComponentComponent;
import org.intercusp.analysis.model.ModelFigures;
import org.intercusp.measure.Length;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.ModelSource;
import org.intercusp.treatment.StudyModel;
import tools.jackson.databind.JsonNode;

/** Study models: a component a tooth width, arch lengths, contacts, widths, and what follows. */
final class ModelMapper {

  private static final Concept CODE = Codes.measurement("study-model");
  private static final Kind<Length> MM = Kind.quantity(Unit.MILLIMETRE);
  private static final Kind<ModelSource> SOURCE = Kind.coded(LocalSystem.MODEL_SOURCE);

  private static final Panel<StudyModel> PANEL =
      new Panel<StudyModel>(Role.MODEL, CODE)
          .arches(
              "available",
              Codes.measurement("available-upper"),
              Codes.measurement("available-lower"),
              StudyModel::available)
          .contacts("contacts", ContactCodes.UPPER, ContactCodes.LOWER, StudyModel::contacts)
          .arches(
              "intermolarWidth",
              Codes.measurement("intermolar-width-upper"),
              Codes.measurement("intermolar-width-lower"),
              StudyModel::intermolarWidth)
          .figures(Measured.ON_MODELS, ModelFigures::figures);

  void toFhir(StudyModel model, Writing writing) {
    Observation resource = writing.observation(CODE);
    resource.setEffective(Writing.day(model.takenOn()));
    Repeats.method(resource, SOURCE, model.source(), writing);
    model
        .toothWidths()
        .forEach(
            (tooth, width) ->
                resource
                    .addComponent()
                    .setCode(
                        LocalSystem.TOOTH_WIDTH.concept(tooth.code()).concept(writing.canonicals()))
                    .setValue(MM.out().apply(width, writing.canonicals())));
    PANEL.write(model, resource, writing.canonicals());
    Repeats.measurer(resource, model.examiner());
    Repeats.repeatOf(resource, Role.MODEL, model.repeatOf(), writing);
    writing.add(resource, Role.MODEL, model.id());
  }

  void fromFhir(Draft root, Reading reading) {
    for (Observation resource : reading.observations(CODE)) {
      String path = reading.path(resource);
      Draft draft = root.element("models", path);
      draft.put("id", reading.id(resource), path + ".identifier");
      Dated.put(draft, "takenOn", resource, path);
      Repeats.source(resource, SOURCE, draft, reading);
      widths(resource, draft.object("toothWidths", path), reading);
      PANEL.read(resource, draft, reading);
      Repeats.measurer(resource, draft, "examiner", path);
      Repeats.repeatOf(resource, draft, path, reading);
    }
  }

  private static void widths(Observation from, Draft widths, Reading reading) {
    String system = reading.canonicals().of(LocalSystem.TOOTH_WIDTH);
    List<ObservationComponentComponent> parts = from.getComponent();
    for (int i = 0; i < parts.size(); i++) {
      JsonNode tooth = Kind.codeIn(parts.get(i).getCode(), system);
      if (tooth != null && parts.get(i).hasValue()) {
        String at = reading.path(from) + ".component[" + i + "].value";
        widths.put(tooth.stringValue(), reading.value(MM, parts.get(i).getValue(), at), at);
      }
    }
  }
}
