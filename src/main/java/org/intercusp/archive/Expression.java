package org.intercusp.archive;

import java.util.List;
import org.intercusp.treatment.Identifier;
import org.jspecify.annotations.Nullable;

/**
 * Says a stored treatment as resources. The archive keeps what it is told and knows nothing of the
 * standard they are written in; whoever puts the rooms together fills this.
 */
public interface Expression {

  /** The resources of one version of a treatment; the same version gives the same ones. */
  List<Expressed> of(StoredTreatment treatment);

  /** The content of a resource whose element went away, marked so. */
  String withdrawn(String content);

  /** What a resource with this content is searched by. */
  ResourceTerms terms(String content);

  /** Raised whenever {@link #terms} gives other terms for the same content; 1 and above. */
  int termsForm();

  /**
   * A resource a treatment says.
   *
   * @param type of the resource
   * @param id its logical id, at most 64 characters, derived from clinic, type and identifier
   * @param identifier its business identifier
   * @param shared whether other treatments of the clinic may say it too
   * @param patient logical id of the patient it speaks of; absent where it speaks of none
   * @param content its text, without version and time
   */
  record Expressed(
      String type,
      String id,
      Identifier identifier,
      boolean shared,
      @Nullable String patient,
      String content) {

    /** Without the content, which is a patient's. */
    @Override
    public String toString() {
      return "Expressed[" + type + "/" + id + "]";
    }
  }
}
