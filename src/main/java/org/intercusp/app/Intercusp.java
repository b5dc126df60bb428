package org.intercusp.app;

import java.util.Arrays;
import java.util.Map;
import org.intercusp.cli.CommandLineDoor;
import org.intercusp.cli.StartFault;
import org.springframework.boot.Banner;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.WebApplicationType;
import org.springframework.boot.autoconfigure.SpringBootApplication;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.boot.security.autoconfigure.UserDetailsServiceAutoConfiguration;
import org.springframework.context.ConfigurableApplicationContext;

/** The way in: one jar whose words on the command line choose the door. */
@SpringBootApplication(
    scanBasePackages = {"org.intercusp.app", "org.intercusp.web"},
    // There are no users and passwords here, so none is made up at the start.
    exclude = UserDetailsServiceAutoConfiguration.class)
public class Intercusp {

  /** Runs the service, or one command and exits with its code. */
  public static void main(String[] args) {
    if (args.length == 0 || isSetting(args[0])) {
      serve(args);
    } else if (args[0].equals("serve") && !asksForHelp(args)) {
      serve(Arrays.copyOfRange(args, 1, args.length));
    } else {
      System.exit(command(args));
    }
  }

  private static void serve(String... settings) {
    try {
      SpringApplication.run(Intercusp.class, settings);
    } catch (RuntimeException e) {
      System.exit(new StartFault(e).told());
    }
  }

  /** {@code --name=value} sets a property of the service; {@code --help} alone is a command. */
  private static boolean isSetting(String word) {
    return word.startsWith("--") && word.contains("=");
  }

  private static boolean asksForHelp(String... args) {
    return Arrays.asList(args).contains("--help");
  }

  /** A command has the same settings as the service, but no server, no database and no log. */
  static int command(String... words) {
    try (ConfigurableApplicationContext rooms =
        new SpringApplicationBuilder(
                RoomWiring.class, RegistryWiring.class, ReportWiring.class, CommandLineDoor.class)
            .web(WebApplicationType.NONE)
            .bannerMode(Banner.Mode.OFF)
            .lazyInitialization(true)
            .registerShutdownHook(false)
            .properties(Map.of("logging.threshold.console", "OFF"))
            .run()) {
      return rooms.getBean(CommandLineDoor.class).run(words);
    } catch (RuntimeException e) {
      return new StartFault(e).told();
    }
  }
}
