package org.intercusp.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.ConnectException;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.http.HttpConnectTimeoutException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.NoSuchFileException;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Arrays;
import java.util.Locale;
import java.util.function.Function;
import org.intercusp.archive.DatabaseTrouble;
import org.intercusp.summary.Audience;
import org.intercusp.summary.content.PatientTexts;
import org.intercusp.treatment.ConsentScope;
import picocli.CommandLine.TypeConversionException;

/** Reads the words of options, and says in words why one cannot be followed. */
final class Words {

  static final String AUDIENCES = "dentist, laboratory, patient";
  static final String SCOPES = "hospital, referrer, laboratory, registry";

  private static final String FULL = "the disk is full; make room and try again";

  private Words() {}

  static LocalDate date(String text) {
    try {
      return LocalDate.parse(text);
    } catch (DateTimeParseException e) {
      throw new TypeConversionException(
          "'" + text + "' is no day of the calendar; one is written 2026-03-01");
    }
  }

  /** An address of HTTP with a host. */
  static URI address(String text) {
    try {
      URI address = new URI(text);
      String scheme = String.valueOf(address.getScheme());
      if (scheme.matches("https?") && address.getHost() != null) {
        return address;
      }
    } catch (URISyntaxException e) {
      // falls through to the refusal
    }
    throw new TypeConversionException(
        "'" + text + "' is no address; one is written https://records.hospital.example/fhir");
  }

  static Audience audience(String text) {
    return coded(Audience.values(), Audience::code, text, AUDIENCES);
  }

  static ConsentScope scope(String text) {
    return coded(ConsentScope.values(), ConsentScope::code, text, SCOPES);
  }

  /** A language of the patient's sheet. */
  static Locale language(String text) {
    Locale locale = Locale.forLanguageTag(text);
    if (!PatientTexts.areIn(locale)) {
      throw new TypeConversionException("expected one of [en, de] but was '" + text + "'");
    }
    return locale;
  }

  private static <T> T coded(T[] all, Function<T, String> code, String text, String expected) {
    return Arrays.stream(all)
        .filter(one -> code.apply(one).equalsIgnoreCase(text))
        .findFirst()
        .orElseThrow(
            () ->
                new TypeConversionException(
                    "expected one of [" + expected + "] but was '" + text + "'"));
  }

  /** Nobody's wrong word: it ends with the code of a failure of ours. */
  static ExitCode code(Exception fault, ExitCode otherwise) {
    return isFullDisk(fault) ? ExitCode.OUR_FAULT : otherwise;
  }

  private static boolean isFullDisk(Throwable fault) {
    return DatabaseTrouble.in(fault).filter(trouble -> trouble == DatabaseTrouble.FULL).isPresent();
  }

  /** Why a file or a service could not be read or written. */
  static String of(Exception fault) {
    if (fault instanceof UncheckedIOException && fault.getCause() instanceof IOException cause) {
      String said = String.valueOf(fault.getMessage());
      return (said.equals(cause.toString()) ? "" : said + ": ") + of(cause);
    }
    if (isFullDisk(fault)) {
      return FULL;
    }
    String message = fault.getMessage();
    if (fault instanceof NoSuchFileException) {
      return "there is no " + message;
    }
    if (fault instanceof FileAlreadyExistsException) {
      return message + " is there already";
    }
    if (fault instanceof AccessDeniedException) {
      return message + " may not be read or written";
    }
    if (fault instanceof ConnectException || fault instanceof HttpConnectTimeoutException) {
      return "nobody answers there";
    }
    return message == null ? fault.getClass().getSimpleName() : message;
  }
}
