package org.intercusp.archive;

/** What became of an attempt to store or replace a treatment. */
public sealed interface Storing {

  /** It was taken as a new version. */
  record Stored(StoredTreatment version) implements Storing {}

  /** Nothing was written: the newest version already has exactly this content. */
  record Same(StoredTreatment version) implements Storing {}

  /** Nothing was written: a treatment with this key is there already. */
  record Exists(StoredTreatment newest) implements Storing {}

  /** Nothing was written: a treatment with this key was erased, and its id is not used again. */
  record Erased() implements Storing {}

  /** Nothing was written: another version has become the newest since the caller read its own. */
  record Stale(StoredTreatment newest) implements Storing {}

  /** Nothing was written: there is no treatment with this key to replace. */
  record Absent() implements Storing {}
}
