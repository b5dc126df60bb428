package org.intercusp.summary.content;

import java.math.BigDecimal;
import java.text.MessageFormat;
import java.text.NumberFormat;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.ResourceBundle;

/**
 * The words of the sheet for patient and carer in one language: one resource bundle a language,
 * English where a language lacks a text or is not there.
 */
public final class PatientTexts {

  private final ResourceBundle bundle;
  private final Locale locale;

  private PatientTexts(ResourceBundle bundle, Locale locale) {
    this.bundle = bundle;
    this.locale = locale;
  }

  /** Whether there are texts in a language, whatever its region. */
  public static boolean areIn(Locale locale) {
    return in(locale).locale.getLanguage().equals(locale.getLanguage());
  }

  public static PatientTexts in(Locale locale) {
    ResourceBundle bundle =
        ResourceBundle.getBundle(
            "summary.patient",
            locale,
            ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
    Locale found = bundle.getLocale();
    return new PatientTexts(bundle, found.equals(Locale.ROOT) ? Locale.ENGLISH : found);
  }

  /** The language that was found, as BCP 47 writes it. */
  public String language() {
    return locale.toLanguageTag();
  }

  public String text(String key) {
    return bundle.getString(key);
  }

  /** A text with its place filled in; the filling is never read as a pattern. */
  public String text(String key, String filling) {
    // With one of a thing most languages say it otherwise.
    String one = key + ".one";
    String wording = filling.equals("1") && bundle.containsKey(one) ? one : key;
    return new MessageFormat(text(wording).replace("'", "''"), locale)
        .format(new Object[] {filling});
  }

  /** A number as the language writes it: with its decimal sign, and no trailing zeros. */
  public String number(BigDecimal number) {
    NumberFormat format = NumberFormat.getNumberInstance(locale);
    format.setGroupingUsed(false);
    format.setMaximumFractionDigits(Math.max(0, number.scale()));
    return format.format(number);
  }

  /** A day as the language writes it, its month in words; English as in the United Kingdom. */
  public String day(LocalDate day) {
    Locale written = locale.equals(Locale.ENGLISH) ? Locale.UK : locale;
    return DateTimeFormatter.ofLocalizedDate(FormatStyle.LONG).withLocale(written).format(day);
  }

  /** All texts numbered below a key, in their order. */
  public List<String> all(String key) {
    List<String> all = new ArrayList<>();
    for (int i = 1; bundle.containsKey(key + "." + i); i++) {
      all.add(text(key + "." + i));
    }
    return all;
  }
}
