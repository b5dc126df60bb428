package org.intercusp.cli;

import org.intercusp.web.api.Program;
import picocli.CommandLine.Command;

/** The words of the command line. */
@Command(
    name = "intercusp",
    mixinStandardHelpOptions = true,
    version = "intercusp " + Program.VERSION,
    description = {
      "Functional appliance treatment records: read, computed, checked, expressed in FHIR,",
      "delivered once and read back.",
      "",
      "Decision support for licensed clinicians; the clinician decides."
    },
    footer = {
      "",
      "Exit codes: 0 clean, warnings only; 1 unaccepted errors, no such patient, some records"
          + " refused;",
      "2 bad usage or unreadable input; 3 a failure of ours; 4 not delivered or not reached."
    },
    subcommands = {
      CheckCommand.class,
      MapCommand.class,
      ValidateCommand.class,
      SendCommand.class,
      FetchCommand.class,
      SummaryCommand.class,
      GenerateCommand.class,
      OutcomesCommand.class,
      ServeCommand.class,
      BackupCommand.class,
      RestoreCommand.class,
      SettingsCommand.class,
      ProfilesCommand.class
    })
final class IntercuspCommand {}
