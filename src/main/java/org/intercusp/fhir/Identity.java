package org.intercusp.fhir;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.apache.commons.codec.digest.DigestUtils;
import org.intercusp.treatment.Identifier;

/**
 * Names of the resources of one treatment. The system of a business identifier is a UUID of the
 * clinic, its value {@code treatment/role/element...}: two clinics with a treatment T1 never meet,
 * and no name depends on how many elements stand before it. A {@code urn:uuid} is made from the
 * same (RFC 4122, 4.3, name-based with SHA-1).
 *
 * @param system naming system of the clinic's treatments
 * @param treatment id of the treatment in the clinic
 */
public record Identity(String system, String treatment) {

  private static final HexFormat HEX = HexFormat.of().withUpperCase();
  private static final UUID URL_NAMESPACE = UUID.fromString("6ba7b811-9dad-11d1-80b4-00c04fd430c8");

  /** The names of a clinic's treatment. */
  public static Identity of(Identifier clinic, String treatment) {
    return new Identity("urn:uuid:" + uuid("clinic", clinic.system(), clinic.value()), treatment);
  }

  /** The business identifier of a resource in a role for the elements named. */
  public Identifier identifier(Role role, String... elements) {
    StringBuilder value = new StringBuilder(escaped(treatment)).append('/').append(role.kebab());
    for (String element : elements) {
      value.append('/').append(escaped(element));
    }
    return new Identifier(system, value.toString());
  }

  /** The {@code urn:uuid} of a resource with this business identifier. */
  public static String urn(String resourceType, Identifier identifier) {
    return "urn:uuid:" + uuid(resourceType, identifier.system(), identifier.value());
  }

  /**
   * The logical id of a resource where this service is the server: name-based too, and from the
   * clinic as well, so that two clinics that know the same patient have each their own. 36
   * characters.
   */
  public static String logicalId(Identifier clinic, String resourceType, Identifier identifier) {
    return uuid(
            "resource",
            clinic.system(),
            clinic.value(),
            resourceType,
            identifier.system(),
            identifier.value())
        .toString();
  }

  /** What one of our business identifiers says, or nothing when it is not one of ours. */
  public static Optional<Name> parse(String system, String value) {
    String[] parts = value.split("/", -1);
    if (!system.startsWith("urn:uuid:") || parts.length < 2) {
      return Optional.empty();
    }
    for (Role role : Role.values()) {
      if (role.kebab().equals(parts[1])) {
        List<String> elements = new ArrayList<>();
        for (int i = 2; i < parts.length; i++) {
          elements.add(unescaped(parts[i]));
        }
        return Optional.of(new Name(new Identity(system, unescaped(parts[0])), role, elements));
      }
    }
    return Optional.empty();
  }

  /** The search that finds a business identifier, ready to stand behind a question mark. */
  public static String search(String parameter, Identifier identifier) {
    return parameter
        + "="
        + percent(searchable(identifier.system()))
        + "%7C"
        + percent(searchable(identifier.value()));
  }

  /** A business identifier taken apart. */
  public record Name(Identity identity, Role role, List<String> elements) {
    public Name {
      elements = List.copyOf(elements);
    }

    /** The number an element has in its list, zero when it has none. */
    int ordinal() {
      String last = elements.isEmpty() ? "" : elements.get(elements.size() - 1);
      boolean numbered =
          last.matches("[0-9]{1,6}") && (elements.size() > 1 || role == Role.ALLERGY);
      return numbered ? Integer.parseInt(last) : 0;
    }
  }

  private static UUID uuid(String... parts) {
    StringBuilder name = new StringBuilder();
    for (String part : parts) {
      // Length first, so that no two lists of parts make the same name.
      name.append(part.length()).append(':').append(part);
    }
    MessageDigest sha1 = DigestUtils.getSha1Digest();
    sha1.update(bytes(URL_NAMESPACE));
    byte[] hash = sha1.digest(name.toString().getBytes(StandardCharsets.UTF_8));
    hash[6] = (byte) ((hash[6] & 0x0f) | 0x50);
    hash[8] = (byte) ((hash[8] & 0x3f) | 0x80);
    ByteBuffer buffer = ByteBuffer.wrap(hash);
    return new UUID(buffer.getLong(), buffer.getLong());
  }

  private static byte[] bytes(UUID uuid) {
    return ByteBuffer.allocate(16)
        .putLong(uuid.getMostSignificantBits())
        .putLong(uuid.getLeastSignificantBits())
        .array();
  }

  // FHIR search gives , $ | and \ a meaning, and we give one to the slash and the tilde.
  private static String escaped(String text) {
    return encoded(text, "-._:", '~');
  }

  // FHIR search, 3.1.1.4.0.1: these four stand for themselves behind a backslash.
  private static String searchable(String text) {
    return text.replaceAll("[\\\\$,|]", "\\\\$0");
  }

  private static String percent(String text) {
    return encoded(text, "-._~", '%');
  }

  private static String encoded(String text, String kept, char mark) {
    StringBuilder out = new StringBuilder();
    for (byte b : text.getBytes(StandardCharsets.UTF_8)) {
      char c = (char) (b & 0xff);
      boolean plain = c < 128 && (Character.isLetterOrDigit(c) || kept.indexOf(c) >= 0);
      if (plain) {
        out.append(c);
      } else {
        out.append(mark).append(HEX.toHexDigits(b));
      }
    }
    return out.toString();
  }

  private static String unescaped(String text) {
    byte[] in = text.getBytes(StandardCharsets.UTF_8);
    ByteBuffer out = ByteBuffer.allocate(in.length);
    for (int i = 0; i < in.length; i++) {
      boolean marked = in[i] == '~' && i + 2 < in.length;
      int high = marked ? Character.digit((char) in[i + 1], 16) : -1;
      int low = marked ? Character.digit((char) in[i + 2], 16) : -1;
      if (high >= 0 && low >= 0) {
        out.put((byte) (high * 16 + low));
        i += 2;
      } else {
        out.put(in[i]);
      }
    }
    return new String(out.array(), 0, out.position(), StandardCharsets.UTF_8);
  }
}
