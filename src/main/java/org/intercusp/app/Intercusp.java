package org.intercusp.app;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
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

  /** Settings have dots in their names, and no option of a command has. */
  private static final String SETTING = "(?s)--[^=.]+\\.[^=]+=.*";

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

  /**
   * Whatever language a machine is set to, the same input gives the same bytes: digits, points and
   * the words of the libraries below are not its affair.
   */
  private static void sameEverywhere() {
    Locale.setDefault(Locale.ENGLISH);
  }

  private static void serve(String... settings) {
    sameEverywhere();
    Thread.setDefaultUncaughtExceptionHandler(new LastWords());
    try {
      mustBeSettings(settings);
      SpringApplication service = new SpringApplication(Intercusp.class);
      service.addInitializers(
          new LogAside(), new UnknownSettings(), new DatabaseAddress(), new TroubleLines.Laid());
      service.run(settings);
    } catch (RuntimeException | OutOfMemoryError e) {
      System.exit(new StartFault(e).told());
    }
  }

  /** A word that sets nothing would be left aside, such as {@code --port=9090}. */
  static void mustBeSettings(String... words) {
    for (String word : words) {
      if (!word.matches(SETTING) && !word.equals("--debug")) {
        throw new IllegalArgumentException(
            word
                + " is none; one is written --name=value, as in --server.port=9090. Before a command"
                + " stands none: COMMAND --name=value");
      }
    }
  }

  /** {@code --name=value} sets a property of the service; {@code --help} alone is a command. */
  private static boolean isSetting(String word) {
    return word.startsWith("--") && word.contains("=");
  }

  private static String[] settings(String... words) {
    return Arrays.stream(words).filter(word -> word.matches(SETTING)).toArray(String[]::new);
  }

  private static String[] besides(String[] settings, String... words) {
    List<String> taken = List.of(settings);
    return Arrays.stream(words).filter(word -> !taken.contains(word)).toArray(String[]::new);
  }

  private static boolean asksForHelp(String... args) {
    return Arrays.asList(args).contains("--help") || Arrays.asList(args).contains("-h");
  }

  /** A command has the same settings as the service, but no server, no database and no log. */
  static int command(String... words) {
    sameEverywhere();
    try (ConfigurableApplicationContext rooms =
        new SpringApplicationBuilder(
                RoomWiring.class, RegistryWiring.class, ReportWiring.class, CommandLineDoor.class)
            .initializers(new UnknownSettings())
            .web(WebApplicationType.NONE)
            .bannerMode(Banner.Mode.OFF)
            .lazyInitialization(true)
            .registerShutdownHook(false)
            .properties(Map.of("logging.threshold.console", "OFF"))
            .run(settings(words))) {
      return rooms.getBean(CommandLineDoor.class).run(besides(settings(words), words));
    } catch (RuntimeException e) {
      return new StartFault(e).told();
    }
  }
}
