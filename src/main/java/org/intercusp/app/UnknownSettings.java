package org.intercusp.app;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.springframework.boot.context.properties.source.ConfigurationPropertyName;
import org.springframework.boot.context.properties.source.ConfigurationPropertyName.Form;
import org.springframework.context.ApplicationContextInitializer;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.core.env.EnumerablePropertySource;
import org.springframework.core.env.PropertySource;
import org.springframework.core.env.StandardEnvironment;

/**
 * Refuses a setting of ours that does not exist: one that is misspelled would else be left aside,
 * and what it was to switch on would stay off. The reference of the settings says which there are.
 * The environment and the system properties are not asked, since others write there too.
 */
final class UnknownSettings
    implements ApplicationContextInitializer<ConfigurableApplicationContext> {

  private static final String REFERENCE = "/settings/reference.md";
  private static final String ANY = "name";
  private static final ConfigurationPropertyName OURS = ConfigurationPropertyName.of("intercusp");

  private static final Set<String> NOT_ASKED =
      Set.of(
          StandardEnvironment.SYSTEM_ENVIRONMENT_PROPERTY_SOURCE_NAME,
          StandardEnvironment.SYSTEM_PROPERTIES_PROPERTY_SOURCE_NAME);

  @Override
  public void initialize(ConfigurableApplicationContext context) {
    List<List<String>> known = known();
    for (PropertySource<?> source : context.getEnvironment().getPropertySources()) {
      if (source instanceof EnumerablePropertySource<?> named
          && !NOT_ASKED.contains(source.getName())) {
        for (String name : named.getPropertyNames()) {
          mustBeKnown(name, known);
        }
      }
    }
  }

  private static void mustBeKnown(String name, List<List<String>> known) {
    ConfigurationPropertyName asked = ConfigurationPropertyName.adapt(name, '.');
    if (!OURS.isAncestorOf(asked)) {
      return;
    }
    List<String> elements =
        IntStream.range(0, asked.getNumberOfElements())
            // Places in a list and keys of a map in brackets; the list is the setting.
            .filter(i -> !asked.isNumericIndex(i))
            .mapToObj(i -> asked.getElement(i, Form.UNIFORM))
            .toList();
    if (known.stream().noneMatch(one -> fits(one, elements))) {
      throw new IllegalArgumentException(
          name + ": there is no such setting; the command settings prints those there are");
    }
  }

  private static boolean fits(List<String> known, List<String> asked) {
    return known.size() == asked.size()
        && IntStream.range(0, known.size())
            .allMatch(i -> known.get(i).equals(ANY) || known.get(i).equals(asked.get(i)));
  }

  /** The elements of each key of the reference, as names are compared: small, without dashes. */
  private static List<List<String>> known() {
    try (InputStream text =
        Objects.requireNonNull(UnknownSettings.class.getResourceAsStream(REFERENCE))) {
      return new String(text.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .filter(line -> line.startsWith("| `intercusp."))
          .map(line -> line.substring(3, line.indexOf('`', 3)))
          .map(key -> key.toLowerCase(Locale.ROOT).replace("-", ""))
          .map(key -> List.of(key.split("\\.")))
          .collect(Collectors.toList());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
