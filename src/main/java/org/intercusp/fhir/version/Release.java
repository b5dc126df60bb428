package org.intercusp.fhir.version;

import java.util.Arrays;
import java.util.Optional;
import java.util.regex.Pattern;

/** A release of FHIR that a resource can be written in and read from. */
public enum Release {
  R4("4.0", "4.0.1"),
  R4B("4.3", "4.3.0"),
  R5("5.0", "5.0.0");

  private final String number;
  private final String version;

  Release(String number, String version) {
    this.number = number;
    this.version = version;
  }

  /** Of two parts, as a media type and the command line name it. */
  public String number() {
    return number;
  }

  /** Of three parts, as a CapabilityStatement names it. */
  public String version() {
    return version;
  }

  /** The release of a version of two or three parts; none for a ballot or another release. */
  public static Optional<Release> of(String version) {
    return Arrays.stream(values())
        .filter(one -> one.number.equals(version) || one.isPatched(version))
        .findFirst();
  }

  private boolean isPatched(String other) {
    return other.matches(Pattern.quote(number) + "\\.\\d+");
  }

  /** What the release calls a resource type of R4. */
  public String typeName(String r4) {
    return this == R5 ? TypeNames.five(r4) : r4;
  }

  /** What R4 calls a resource type of the release. */
  public String typeNameInR4(String own) {
    return this == R5 ? TypeNames.four(own) : own;
  }
}
