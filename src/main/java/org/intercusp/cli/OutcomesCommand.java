package org.intercusp.cli;

import picocli.CommandLine.Command;

/** Registry work on files. */
@Command(
    name = "outcomes",
    mixinStandardHelpOptions = true,
    description = "registry work on files",
    subcommands = {
      OutcomesLoadCommand.class,
      OutcomesReportCommand.class,
      OutcomesExportCommand.class,
      OutcomesKeysCommand.class
    })
final class OutcomesCommand {

  /** What there is nothing of. */
  static final String NONE =
      "No outcomes there: load some first; INTERCUSP_DATA names the data directory.";
}
