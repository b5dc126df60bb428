package org.intercusp.cli;

import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.springframework.boot.context.config.ConfigDataException;
import org.springframework.boot.context.properties.bind.BindException;
import org.springframework.boot.web.server.PortInUseException;
import org.springframework.core.convert.ConversionFailedException;
import org.yaml.snakeyaml.error.YAMLException;

/**
 * Why a command or the service did not start, in one line: most often a setting, which whoever set
 * it can mend once it is named.
 */
public final class StartFault {

  private final List<Throwable> chain = new ArrayList<>();

  public StartFault(Throwable fault) {
    for (Throwable one = fault; one != null && !chain.contains(one); one = one.getCause()) {
      chain.add(one);
    }
  }

  /** Says it on standard error; the exit code that goes with it. */
  public int told() {
    new Console().say(words().replaceAll("\\s+", " "));
    return (isOfSettings() ? ExitCode.UNREADABLE : ExitCode.OUR_FAULT).code();
  }

  // A port in use has an argument that was not legal below it, and is nobody's setting.
  private boolean isOfSettings() {
    return first(PortInUseException.class).isEmpty()
        && (first(BindException.class).isPresent()
            || first(UncheckedIOException.class).isPresent()
            || first(ConfigDataException.class).isPresent()
            || first(YAMLException.class).isPresent()
            || first(IllegalArgumentException.class).isPresent()
            || DatabaseFault.ofSettings(chain).isPresent());
  }

  private String words() {
    Optional<PortInUseException> busy = first(PortInUseException.class);
    if (busy.isPresent()) {
      return "Not started: " + said(busy.get());
    }
    Optional<Throwable> locked = chain.stream().filter(StartFault::isLocked).findFirst();
    if (locked.isPresent()) {
      return "Not started: another service works on this data directory;"
          + " INTERCUSP_DATA names another: "
          + said(locked.get());
    }
    Optional<String> unnamed = DatabaseFault.ofSettings(chain);
    if (unnamed.isPresent()) {
      return "Wrong setting spring.datasource: " + unnamed.get();
    }
    Optional<String> unusable = DatabaseFault.in(chain);
    if (unusable.isPresent()) {
      return "Not started: " + unusable.get();
    }
    if (first(OutOfMemoryError.class).isPresent()) {
      return "Not started: the memory is too small; give it more, as in java -Xmx512m -jar";
    }
    Optional<BindException> unbound = first(BindException.class);
    if (unbound.isPresent()) {
      return "Wrong setting " + unbound.get().getName() + ": " + choices().orElse(said(root()));
    }
    Optional<UncheckedIOException> unread = first(UncheckedIOException.class);
    if (unread.isPresent()) {
      return "Wrong setting: " + Words.of(unread.get());
    }
    // The first has the name of the setting before the words of the one that found the fault.
    Optional<IllegalArgumentException> unfit = first(IllegalArgumentException.class);
    if (unfit.isPresent()) {
      boolean whole = said(unfit.get()).contains(said(root()));
      return "Wrong setting: " + said(unfit.get()) + (whole ? "" : ": " + said(root()));
    }
    if (isOfSettings()) {
      return "Wrong setting: " + said(root());
    }
    return "Not started: " + root().getClass().getSimpleName() + ": " + said(root());
  }

  /** The embedded database is one process's; its library says so in its own words. */
  private static boolean isLocked(Throwable fault) {
    return fault.getClass().getSimpleName().equals("MVStoreException")
        && String.valueOf(fault.getMessage()).startsWith("The file is locked");
  }

  /** What there is to choose from, where what was chosen is not among it. */
  private Optional<String> choices() {
    return first(ConversionFailedException.class)
        .map(unread -> unread.getTargetType().getType().getEnumConstants())
        .map(
            all ->
                Arrays.stream(all)
                    .map(one -> one.toString().toLowerCase(Locale.ROOT).replace('_', '-'))
                    .collect(Collectors.joining(" or ", "it is ", "")));
  }

  private Throwable root() {
    return chain.get(chain.size() - 1);
  }

  private <T extends Throwable> Optional<T> first(Class<T> kind) {
    return chain.stream().filter(kind::isInstance).map(kind::cast).findFirst();
  }

  private static String said(Throwable fault) {
    String message = fault.getMessage();
    return message == null || message.isBlank() ? fault.getClass().getSimpleName() : message;
  }
}
