package org.intercusp.registry.privacy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import javax.crypto.spec.SecretKeySpec;

/**
 * The keys that pseudonyms are made with, oldest first, from a file with one {@code id base64} a
 * line that its owner alone can read. A pseudonym is made with the first key and hashed again with
 * each later one, so that a new key can be laid over what is stored without knowing whom it is
 * about, and the same person still matches. Refused: a file that others can read, a key shorter
 * than 256 bits, an id that stands twice.
 */
public final class KeyRing {

  private static final Set<PosixFilePermission> OWNER_ALONE =
      PosixFilePermissions.fromString("rw-------");

  /** As many bits as the hash has (NIST SP 800-107 rev. 1, 5.3.4). */
  private static final int BYTES = 32;

  /** One key with its name. */
  record Key(String id, SecretKeySpec secret) {
    static Key of(String id, byte[] secret) {
      return new Key(id, new SecretKeySpec(secret, "HmacSHA256"));
    }

    @Override
    public String toString() {
      return "key " + id;
    }
  }

  private final List<Key> keys;

  private KeyRing(List<Key> keys) {
    this.keys = List.copyOf(keys);
  }

  /** The keys of a file, which is made with a first key where there is none. */
  public static KeyRing open(Path file) {
    try {
      if (Files.notExists(file)) {
        write(file, List.of(fresh("k1")));
      }
      return new KeyRing(read(file));
    } catch (IOException e) {
      throw new UncheckedIOException("the key file cannot be used: " + file, e);
    }
  }

  /** Adds a new key to the file; what is stored is hashed with it at the next opening. */
  public static KeyRing rotate(Path file) {
    KeyRing ring = open(file);
    List<Key> more = new ArrayList<>(ring.keys);
    more.add(fresh("k" + (more.size() + 1)));
    try {
      write(file, more);
    } catch (IOException e) {
      throw new UncheckedIOException("the key file cannot be written: " + file, e);
    }
    return new KeyRing(more);
  }

  private static Key fresh(String id) {
    byte[] secret = new byte[BYTES];
    new SecureRandom().nextBytes(secret);
    return Key.of(id, secret);
  }

  private static List<Key> read(Path file) throws IOException {
    if (isPosix(file) && !OWNER_ALONE.containsAll(Files.getPosixFilePermissions(file))) {
      throw new IOException("others than its owner may use it");
    }
    List<Key> keys = new ArrayList<>();
    for (String line : Files.readAllLines(file, StandardCharsets.US_ASCII)) {
      if (!line.isBlank() && !line.startsWith("#")) {
        String[] words = line.trim().split(" ", -1);
        byte[] secret = words.length == 2 ? Base64.getDecoder().decode(words[1]) : new byte[0];
        if (secret.length < BYTES || keys.stream().anyMatch(key -> key.id().equals(words[0]))) {
          throw new IOException("a line is not an id of its own and a key of 256 bits or more");
        }
        keys.add(Key.of(words[0], secret));
      }
    }
    if (keys.isEmpty()) {
      throw new IOException("there is no key in it");
    }
    return keys;
  }

  private static void write(Path file, List<Key> keys) throws IOException {
    StringBuilder text = new StringBuilder("# Keys of pseudonyms, oldest first. Losing them loses");
    text.append(" the matching; showing them loses the privacy.\n");
    for (Key key : keys) {
      text.append(key.id()).append(' ');
      text.append(Base64.getEncoder().encodeToString(key.secret().getEncoded())).append('\n');
    }
    Path folder = Objects.requireNonNull(file.toAbsolutePath().getParent());
    Files.createDirectories(folder);
    Path next = file.resolveSibling(file.getFileName() + ".next");
    Files.deleteIfExists(next);
    if (isPosix(folder)) {
      Files.createFile(next, PosixFilePermissions.asFileAttribute(OWNER_ALONE));
    }
    Files.writeString(
        next, text, StandardOpenOption.CREATE, StandardOpenOption.WRITE, StandardOpenOption.SYNC);
    Files.move(next, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
  }

  private static boolean isPosix(Path path) {
    return path.getFileSystem().supportedFileAttributeViews().contains("posix");
  }

  /** Which key was laid on last. */
  public String current() {
    return keys.get(keys.size() - 1).id();
  }

  /** Makes pseudonyms; for one thread. */
  public Pseudonyms pseudonyms() {
    return new Pseudonyms(keys);
  }
}
