package org.intercusp.cli;

import picocli.CommandLine.Command;

/**
 * Listed so that help shows it; the main class starts the service before the command line is read.
 */
@Command(
    name = "serve",
    mixinStandardHelpOptions = true,
    description = "runs the service (also the default); takes --name=value for every setting")
final class ServeCommand {}
