package org.intercusp.app;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.reflect.Constructor;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.math.BigDecimal;
import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.springframework.beans.factory.config.BeanDefinition;
import org.springframework.beans.factory.config.YamlPropertiesFactoryBean;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;
import org.springframework.context.annotation.ClassPathScanningCandidateComponentProvider;
import org.springframework.core.io.ClassPathResource;
import org.springframework.core.type.filter.AnnotationTypeFilter;
import org.springframework.util.unit.DataSize;

/** The reference of all settings, from the records they are bound to and what stands above them. */
final class SettingsReference {

  /**
   * One setting.
   *
   * @param standard what is used where it is not set; empty where there is nothing
   */
  record Setting(String key, String type, String standard, String meaning) {}

  private final SettingsWords words;
  private final Map<String, Setting> settings = new TreeMap<>();
  private final Map<Object, Object> defaults;

  private SettingsReference(Path sources) {
    this.words = new SettingsWords(sources);
    YamlPropertiesFactoryBean yaml = new YamlPropertiesFactoryBean();
    yaml.setResources(new ClassPathResource("application.yaml"));
    this.defaults = Map.copyOf(yaml.getObject());
  }

  /** All settings of the program, in the order of their keys. */
  static Collection<Setting> all() {
    SettingsReference reference = new SettingsReference(Path.of("src/main/java"));
    ClassPathScanningCandidateComponentProvider scan =
        new ClassPathScanningCandidateComponentProvider(false);
    scan.addIncludeFilter(new AnnotationTypeFilter(ConfigurationProperties.class));
    for (BeanDefinition found : scan.findCandidateComponents("org.intercusp")) {
      if (!String.valueOf(found.getResourceDescription()).contains("test-classes")) {
        reference.add(type(found.getBeanClassName()));
      }
    }
    return reference.settings.values();
  }

  /** Those of one record. */
  static Collection<Setting> of(Class<?> record, Path sources) {
    SettingsReference reference = new SettingsReference(sources);
    reference.add(record);
    return reference.settings.values();
  }

  private static Class<?> type(String name) {
    try {
      return Class.forName(name);
    } catch (ClassNotFoundException e) {
      throw new IllegalStateException(e);
    }
  }

  private void add(Class<?> record) {
    ConfigurationProperties bound = record.getAnnotation(ConfigurationProperties.class);
    add(bound.value().isEmpty() ? bound.prefix() : bound.value(), record);
  }

  private void add(String prefix, Class<?> record) {
    Constructor<?> canonical = record.getDeclaredConstructors()[0];
    RecordComponent[] components = record.getRecordComponents();
    for (int i = 0; i < components.length; i++) {
      DefaultValue standard = canonical.getParameters()[i].getAnnotation(DefaultValue.class);
      String key = prefix + "." + kebab(components[i].getName());
      String meaning = words.of(record, components[i].getName());
      add(key, components[i].getGenericType(), standard, meaning);
    }
  }

  private void add(String key, Type type, DefaultValue standard, String meaning) {
    if (type instanceof ParameterizedType map && map.getRawType() == Map.class) {
      add(key + ".NAME", map.getActualTypeArguments()[1], null, meaning);
    } else if (type instanceof Class<?> one && one.isRecord()) {
      add(key, one);
    } else {
      String given = standard == null ? "" : String.join(", ", standard.value());
      String value = given.isEmpty() ? String.valueOf(defaults.getOrDefault(key, "")) : given;
      settings.put(key, new Setting(key, words(type), value, meaning));
    }
  }

  private static String words(Type type) {
    if (type instanceof ParameterizedType many) {
      return "list of " + words(many.getActualTypeArguments()[0]);
    }
    Class<?> one = (Class<?>) type;
    if (one.isEnum()) {
      return Arrays.stream(one.getEnumConstants())
          .map(each -> each.toString().toLowerCase(Locale.ROOT).replace('_', '-'))
          .collect(Collectors.joining(" or "));
    }
    Map<Class<?>, String> names =
        Map.of(
            String.class, "text",
            int.class, "whole number",
            boolean.class, "true or false",
            BigDecimal.class, "number",
            Duration.class, "duration, as 30s",
            DataSize.class, "size, as 32MB",
            URI.class, "address",
            Path.class, "file or directory");
    String name = names.get(one);
    if (name == null) {
      throw new IllegalStateException("a type of setting without a name for people: " + one);
    }
    return name;
  }

  private static String kebab(String name) {
    return name.replaceAll("([A-Z])", "-$1").toLowerCase(Locale.ROOT);
  }

  /** Those that nobody says the meaning of. */
  static List<String> undescribed(Collection<Setting> settings) {
    return settings.stream().filter(one -> one.meaning().isBlank()).map(Setting::key).toList();
  }

  /** As a page in Markdown. */
  static String text(Collection<Setting> settings) {
    List<String> lines = new ArrayList<>();
    lines.add("# Settings");
    lines.add("");
    lines.add(
        "Written anew from the settings records by `org.intercusp.app.WriteSettings`; a test");
    lines.add(
        "compares. Each may stand in a file (`--spring.config.additional-location=FILE`), on");
    lines.add("the command line (`--KEY=VALUE`) or in the environment (`intercusp.data` is");
    lines.add("`INTERCUSP_DATA`), for the service and for every command. One below `intercusp` in");
    lines.add("a file or on the command line that is not listed here is refused at the start.");
    lines.add("`NAME` is a name of your choice.");
    lines.add("");
    lines.add("| setting | kind | where not set | means |");
    lines.add("|---|---|---|---|");
    settings.forEach(
        one ->
            lines.add(
                "| `%s` | %s | %s | %s |"
                    .formatted(
                        one.key(),
                        one.type(),
                        one.standard().isEmpty() ? "" : "`" + one.standard() + "`",
                        one.meaning().replace("|", "\\|"))));
    return String.join("\n", lines) + "\n";
  }

  /** The page as it is kept. */
  static String kept(Path file) {
    try {
      return java.nio.file.Files.readString(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
