package org.intercusp.rules.rule;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.CRC32;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.finding.Source;
import org.intercusp.finding.Value;
import org.intercusp.measure.Decimal;
import org.intercusp.measure.Quantity;
import org.intercusp.measure.Unit;
import org.jspecify.annotations.Nullable;

/** Collects what one rule finds in one case. */
public final class Findings {

  /** A file's acceptances keep numbers up to a million. */
  private static final long CHECKSUMS = 1_000_000;

  private final RuleDescription rule;
  private final Limits limits;
  private final List<Finding> list = new ArrayList<>();

  private Findings(RuleDescription rule, Limits limits) {
    this.rule = rule;
    this.limits = limits;
  }

  /** Runs a rule on a case. */
  public static List<Finding> of(Rule rule, Case about) {
    return of(rule, rule.description(), about);
  }

  /** Runs a rule whose description is at hand. */
  public static List<Finding> of(Rule rule, RuleDescription description, Case about) {
    Findings found = new Findings(description, about.limits());
    rule.check(about, found);
    return List.copyOf(found.list);
  }

  /** Starts a finding; {@link Draft#says} ends it. */
  public Draft report(Severity severity, Pointer at, String subject) {
    if (!rule.severities().contains(severity)) {
      throw new IllegalStateException(rule.code() + " does not declare severity " + severity);
    }
    return new Draft(severity, at, subject);
  }

  public Draft error(Pointer at, String subject) {
    return report(Severity.ERROR, at, subject);
  }

  public Draft warning(Pointer at, String subject) {
    return report(Severity.WARNING, at, subject);
  }

  public Draft information(Pointer at, String subject) {
    return report(Severity.INFORMATION, at, subject);
  }

  /** A finding on its way. */
  public final class Draft {
    private final Severity severity;
    private final Pointer at;
    private final String subject;
    private final Map<String, Decimal> values = new TreeMap<>();
    private final StringBuilder notes = new StringBuilder();
    private @Nullable Value value;
    private @Nullable Value limit;
    private @Nullable Unit unit;
    private String remedy = rule.remedy();
    private Source source = rule.source();

    private Draft(Severity severity, Pointer at, String subject) {
      this.severity = severity;
      this.at = at;
      this.subject = subject;
    }

    /** What was found; an acceptance is given for it. */
    public Draft value(String name, Quantity quantity) {
      unit = quantity.unit();
      return value(name, quantity.value());
    }

    /** What was found, as a pure number. */
    public Draft value(String name, BigDecimal number) {
      value = Value.of(number);
      return keeping(name, number);
    }

    /** What was found, counted. */
    public Draft value(String name, long number) {
      return value(name, BigDecimal.valueOf(number));
    }

    /** What was found, in words. */
    public Draft value(String words) {
      value = Value.of(words);
      return this;
    }

    public Draft unit(Unit of) {
      unit = of;
      return this;
    }

    /** What it was compared with, settable; says so where the clinic has changed it. */
    public Draft limit(Limit settable) {
      limit = Value.of(limits.of(settable));
      unit = settable.unit();
      return notingChange(settable);
    }

    public Draft limit(BigDecimal number) {
      limit = Value.of(number);
      return this;
    }

    public Draft limit(Quantity quantity) {
      unit = quantity.unit();
      return limit(quantity.value());
    }

    /** What it was compared with, in words. */
    public Draft limit(String words) {
      limit = Value.of(words);
      return this;
    }

    /** A limit from one settable limit to another. */
    public Draft limit(Limit low, Limit high) {
      limit = Value.of(limits.of(low).toPlainString() + "-" + limits.of(high).toPlainString());
      unit = low.unit();
      return notingChange(low).notingChange(high);
    }

    /** Says in the message where a clinic's own limit was used. */
    public Draft notingChange(Limit settable) {
      if (limits.isChanged(settable)) {
        notes
            .append(" The clinic has set ")
            .append(settable.code())
            .append(" to ")
            .append(limits.of(settable).toPlainString())
            .append("; the usual limit is ")
            .append(settable.unit().behind(settable.usual().toPlainString()))
            .append(".");
      }
      return this;
    }

    /** Another number an acceptance is given for. */
    public Draft keeping(String name, BigDecimal number) {
      values.put(name, new Decimal(number));
      return this;
    }

    public Draft keeping(String name, long number) {
      return keeping(name, BigDecimal.valueOf(number));
    }

    /**
     * Words an acceptance is given for, such as those of a material: kept as their checksum, since
     * an acceptance keeps numbers, under a name that says so. Case and spaces don't matter.
     */
    public Draft keepingWords(String name, String words) {
      CRC32 checksum = new CRC32();
      String plain = words.strip().replaceAll("\\s+", " ").toLowerCase(Locale.ROOT);
      checksum.update(plain.getBytes(StandardCharsets.UTF_8));
      return keeping("checksumOf" + name, checksum.getValue() % CHECKSUMS);
    }

    /** Says that it is borderline when the distance to the limit is within the uncertainty. */
    public Draft borderlineWithin(double distance, double uncertainty) {
      if (Math.abs(distance) <= uncertainty) {
        notes.append(" Borderline: the distance to the limit is within the reading error.");
      }
      return this;
    }

    public Draft remedy(String instead) {
      remedy = instead;
      return this;
    }

    public Draft source(Source instead) {
      source = instead;
      return this;
    }

    /** Ends the finding with its sentence. */
    public void says(String message) {
      list.add(
          new Finding(
              rule.code(),
              severity,
              at,
              subject,
              value,
              limit,
              unit,
              message + notes,
              remedy,
              source,
              values));
    }
  }
}
