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
final class OutcomesCommand {}
