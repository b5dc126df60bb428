package org.intercusp.treatment.submission;

import java.time.LocalDate;
import org.intercusp.treatment.Coded;
import org.intercusp.treatment.Identifier;
import org.jspecify.annotations.Nullable;

/**
 * What a clinic submits to a registry about one treatment, or the word that consent was withdrawn.
 * The same submitter and submission id is one submission: a later one replaces the one before. No
 * name, address or free text has a place in it.
 *
 * @param submitter who sends it, for whom {@code submission} is unique
 * @param revision counts the corrections; 1 where absent. A lower one changes nothing where a
 *     higher one is
 * @param clinic where the treatment is; with {@code treatment} it names the treatment
 * @param treatment the clinic's id of the treatment
 * @param patient the clinic's or the country's identifier of the patient, kept as a pseudonym only
 * @param course absent in a withdrawal
 */
public record Submission(
    Kind kind,
    Identifier submitter,
    String submission,
    @Nullable Integer revision,
    Identifier clinic,
    String treatment,
    Identifier patient,
    Agreement consent,
    @Nullable Course course) {

  /** The value of the {@code format} member. */
  public static final String FORMAT = "intercusp-outcome/1";

  /** The revision, counted from 1. */
  public int revisionNumber() {
    return revision == null ? 1 : revision;
  }

  /** What is submitted. */
  public enum Kind implements Coded {
    CASE("case"),
    WITHDRAWAL("withdrawal");

    private final String code;

    Kind(String code) {
      this.code = code;
    }

    @Override
    public String code() {
      return code;
    }
  }

  /**
   * Consent to pass the outcome to the registry.
   *
   * @param withdrawnOn only in a withdrawal
   */
  public record Agreement(LocalDate recordedOn, @Nullable LocalDate withdrawnOn) {}
}
