package org.intercusp.treatment;

import java.time.LocalDate;
import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;
import org.intercusp.dentition.Tooth;
import org.intercusp.measure.Length;
import org.jspecify.annotations.Nullable;

/**
 * Measurements on study models.
 *
 * @param toothWidths mesiodistal crown widths
 * @param available arch length from the mesial of one first molar to that of the other
 * @param contacts displacements of the five anterior contacts of an arch, patient's right to left
 */
public record StudyModel(
    String id,
    LocalDate takenOn,
    ModelSource source,
    Map<Tooth, Length> toothWidths,
    @Nullable BothArches available,
    @Nullable Contacts contacts,
    @Nullable BothArches intermolarWidth,
    @Nullable String examiner,
    @Nullable String repeatOf) {

  public StudyModel {
    toothWidths = Collections.unmodifiableMap(new TreeMap<>(toothWidths));
  }
}
