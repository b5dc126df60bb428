package org.intercusp.registry.intake;

/**
 * Hears of submissions before anything of them is kept, so that none is kept unrecorded: what it
 * throws stops the step it was told of. It is told of a submission as a whole, never of its lines,
 * of which there may be millions. A step that is taken again after a stop is told again.
 */
public interface SubmissionWitness {

  /** Where nobody keeps a record: the files of who runs a command for themselves. */
  SubmissionWitness NONE =
      new SubmissionWitness() {
        @Override
        public void received(String id) {}

        @Override
        public void ending(LoadStatus end) {}
      };

  /** A submission is about to be kept under this id, or loaded at once. */
  void received(String id);

  /**
   * A load is about to be told as ended.
   *
   * @param end how, with the counts of all its lines
   */
  void ending(LoadStatus end);
}
