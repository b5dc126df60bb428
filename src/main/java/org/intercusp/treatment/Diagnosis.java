package org.intercusp.treatment;

import java.time.LocalDate;
import java.util.List;
import org.intercusp.dentition.Tooth;
import org.intercusp.measure.Length;
import org.intercusp.measure.Share;
import org.jspecify.annotations.Nullable;

/**
 * The diagnosis the treatment starts from. Overjet: forward positive, reverse negative. Overbite:
 * overlap positive, open bite negative. Molar relation: class II positive, class I zero.
 *
 * @param overbiteCover share of the lower incisor crown that is covered
 * @param jointSigns an empty list says that none was found, absence that nobody looked
 */
public record Diagnosis(
    LocalDate assessedOn,
    IncisorClass incisorClass,
    BothSides molarRelation,
    Length overjet,
    Length overbite,
    @Nullable Share overbiteCover,
    @Nullable BothArches crowding,
    @Nullable Lips lips,
    @Nullable GrowthStage growthStage,
    @Nullable List<JointSign> jointSigns,
    @Nullable Hygiene hygiene,
    @Nullable Boolean activeCaries,
    List<Tooth> teethPresent) {

  public Diagnosis {
    jointSigns = jointSigns == null ? null : List.copyOf(jointSigns);
    teethPresent = List.copyOf(teethPresent);
  }
}
