package org.intercusp.cli;

import java.io.UncheckedIOException;
import java.net.URI;
import java.time.LocalDate;
import java.util.Locale;
import org.intercusp.conformance.NotConformant;
import org.intercusp.finding.FaultPlace;
import org.intercusp.registry.store.StoreFault;
import org.intercusp.summary.Audience;
import org.intercusp.treatment.ConsentScope;
import org.springframework.beans.BeansException;
import org.springframework.beans.factory.BeanFactory;
import org.springframework.beans.factory.NoSuchBeanDefinitionException;
import org.springframework.context.annotation.ComponentScan;
import org.springframework.context.annotation.Configuration;
import picocli.CommandLine;
import picocli.CommandLine.IFactory;

/** Runs one command and tells how it ended. */
@Configuration(proxyBeanMethods = false)
@ComponentScan
public class CommandLineDoor {

  private final BeanFactory beans;
  private final Console console;

  CommandLineDoor(BeanFactory beans, Console console) {
    this.beans = beans;
    this.console = console;
  }

  /** The exit code for these words. */
  public int run(String... words) {
    try {
      CommandLine line = line();
      mustBeMade(line, words);
      int code = line.execute(words);
      console.flush();
      return code;
    } catch (Console.Unwritten e) {
      return failed(e);
    } catch (BeansException | CommandLine.PicocliException e) {
      // Making the commands makes what they work with, such as the recipients.
      return new StartFault(e).told();
    }
  }

  /**
   * Makes the command that is asked for, with what it works with: where that fails while it is
   * carried out, the library writes a trace and ends with 1.
   */
  private static void mustBeMade(CommandLine line, String... words) {
    try {
      line.parseArgs(words);
    } catch (CommandLine.ParameterException e) {
      // Told when it is carried out, with the usage.
      return;
    }
  }

  private CommandLine line() {
    return new CommandLine(new IntercuspCommand(), factory())
        .registerConverter(Input.class, Input::new)
        .registerConverter(LocalDate.class, Words::date)
        .registerConverter(URI.class, Words::address)
        .registerConverter(Audience.class, Words::audience)
        .registerConverter(ConsentScope.class, Words::scope)
        .registerConverter(Locale.class, Words::language)
        .setCaseInsensitiveEnumValuesAllowed(true)
        .setExecutionExceptionHandler((fault, command, parsed) -> failed(fault));
  }

  private IFactory factory() {
    IFactory plain = CommandLine.defaultFactory();
    return new IFactory() {
      @Override
      public <K> K create(Class<K> type) throws Exception {
        try {
          return beans.getBean(type);
        } catch (NoSuchBeanDefinitionException e) {
          return plain.create(type);
        }
      }
    };
  }

  /** No stack trace and nothing of the record: what failed, in one line. */
  private int failed(Exception fault) {
    if (fault instanceof IllegalArgumentException && fault.getMessage() != null) {
      console.say(fault.getMessage());
      return ExitCode.UNREADABLE.code();
    }
    if (fault instanceof UncheckedIOException) {
      console.say(Words.of(fault));
      return Words.code(fault, ExitCode.UNREADABLE).code();
    }
    if (fault instanceof StoreFault || fault instanceof Console.Unwritten) {
      console.say(String.valueOf(fault.getMessage()));
      return ExitCode.OUR_FAULT.code();
    }
    if (fault instanceof NotConformant) {
      console.say("Nothing was sent: the Bundle does not conform, which is a failure of ours.");
      return ExitCode.OUR_FAULT.code();
    }
    if (fault instanceof BeansException) {
      return new StartFault(fault).told();
    }
    console.say("A failure of ours: " + FaultPlace.of(fault));
    return ExitCode.OUR_FAULT.code();
  }
}
