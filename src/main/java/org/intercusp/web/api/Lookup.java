package org.intercusp.web.api;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.util.List;
import org.intercusp.archive.Page;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.treatment.Identifier;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.web.util.UriUtils;

/**
 * Finds what a path names. A path names a treatment by its id alone; where several clinics have one
 * with that id, {@code clinic=SYSTEM|VALUE} says whose.
 */
public final class Lookup {

  private final TreatmentArchive archive;

  public Lookup(TreatmentArchive archive) {
    this.archive = archive;
  }

  TreatmentKey key(String id, @Nullable String clinic) {
    if (clinic != null) {
      return key(identifier(clinic), id);
    }
    List<TreatmentKey> keys = archive.withId(id);
    if (keys.isEmpty()) {
      throw absent();
    }
    if (keys.size() > 1) {
      throw Problem.of(
          HttpStatus.CONFLICT,
          "Several clinics have a treatment with this id: name one with clinic=SYSTEM|VALUE.");
    }
    return keys.get(0);
  }

  /**
   * The path that names a treatment. It says whose only where the caller reaches another clinic's
   * with the same id: people and programs append to it, which a query would be in the way of.
   */
  String place(TreatmentKey key) {
    String path = "/treatments/" + UriUtils.encodePathSegment(key.treatment(), UTF_8);
    String clinic = clinicWhereSeveral(key);
    return clinic == null ? path : path + "?clinic=" + UriUtils.encode(clinic, UTF_8);
  }

  /**
   * Whose treatment it is, as an address says it; null where the caller reaches no other clinic's
   * with the same id, and need not say it.
   */
  public @Nullable String clinicWhereSeveral(TreatmentKey key) {
    return archive.withId(key.treatment()).size() > 1 ? key.reached().written() : null;
  }

  /** The newest version of the treatment a path names. */
  public StoredTreatment current(String id, @Nullable String clinic) {
    return archive.current(key(id, clinic)).orElseThrow(Lookup::absent);
  }

  /** That version of the treatment a path names, the newest where none is said. */
  public StoredTreatment version(String id, @Nullable String clinic, @Nullable Integer version) {
    return version == null
        ? current(id, clinic)
        : archive.version(key(id, clinic), version).orElseThrow(() -> absent(id, clinic, version));
  }

  /** What {@code after} takes for the page that follows; null on the last. */
  public static @Nullable String cursor(Page page) {
    TreatmentKey next = page.next();
    return next == null ? null : Cursor.write(next);
  }

  /** A page of the newest versions. */
  public Page page(@Nullable String after, int count) {
    if (count < 1 || count > TreatmentArchive.LONGEST_PAGE) {
      throw Problem.of(
          HttpStatus.BAD_REQUEST, "count is from 1 to " + TreatmentArchive.LONGEST_PAGE + ".");
    }
    return archive.list(after == null ? null : Cursor.read(after), count);
  }

  static Identifier identifier(String systemAndValue) {
    return Identifier.parse(systemAndValue)
        .orElseThrow(() -> Problem.of(HttpStatus.BAD_REQUEST, "A clinic is written SYSTEM|VALUE."));
  }

  /** A key within the archive's bounds; one beyond them is the caller's fault. */
  static TreatmentKey key(Identifier clinic, String id) {
    try {
      return new TreatmentKey(clinic, id);
    } catch (IllegalArgumentException e) {
      throw Problem.of(HttpStatus.UNPROCESSABLE_CONTENT, String.valueOf(e.getMessage()) + ".");
    }
  }

  /** Of a treatment that is there a version is missing, and not the treatment. */
  private Problem absent(String id, @Nullable String clinic, int version) {
    int newest = current(id, clinic).version();
    return Problem.of(
        HttpStatus.NOT_FOUND,
        "There is no version %d of this treatment; the newest is %d.".formatted(version, newest));
  }

  private static Problem absent() {
    return Problem.of(HttpStatus.NOT_FOUND, "There is no such treatment.");
  }
}
