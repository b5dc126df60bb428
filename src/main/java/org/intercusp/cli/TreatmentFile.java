package org.intercusp.cli;

import java.io.IOException;
import java.util.Optional;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.springframework.stereotype.Component;

/** Reads the one treatment file a command takes; what is wrong with it goes to standard error. */
@Component
final class TreatmentFile {

  /** Far above what a reader takes, so that the reader says what is wrong: 64 MiB. */
  private static final int LIMIT = 64 << 20;

  private final TreatmentReader reader;
  private final Console console;

  TreatmentFile(TreatmentReader reader, Console console) {
    this.reader = reader;
    this.console = console;
  }

  Optional<Treatment> read(Input file) {
    try {
      ReadResult result = reader.read(file.read(LIMIT));
      if (result instanceof ReadResult.Refused refused) {
        console.say(Faults.shown(file.toString(), refused.faults()));
        return Optional.empty();
      }
      return Optional.of(((ReadResult.Accepted) result).treatment());
    } catch (IOException e) {
      console.say(file + ": cannot be opened");
      return Optional.empty();
    }
  }
}
