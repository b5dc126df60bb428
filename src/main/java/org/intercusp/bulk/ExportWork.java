package org.intercusp.bulk;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BooleanSupplier;
import org.intercusp.access.Clinic;
import org.intercusp.access.TimeSpan;
import org.intercusp.archive.FiledResource;
import org.intercusp.archive.ResourceIndex;
import org.intercusp.archive.ResourceQuery;
import org.intercusp.treatment.Identifier;
import org.jspecify.annotations.Nullable;

/** One attempt at an export: page by page, so that memory is bounded by a page. */
final class ExportWork {

  /** Resources held at once; common practice, no source. */
  private static final int PAGE = 500;

  private final ResourceIndex index;
  private final ExportRows rows;
  private final ExportFolder folder;
  private final Lines lines;
  private final ExportSettings settings;
  private final Clock clock;
  private final BooleanSupplier stop;

  ExportWork(
      ResourceIndex index,
      ExportRows rows,
      ExportFolder folder,
      Lines lines,
      ExportSettings settings,
      Clock clock,
      BooleanSupplier stop) {
    this.index = index;
    this.rows = rows;
    this.folder = folder;
    this.lines = lines;
    this.settings = settings;
    this.clock = clock;
    this.stop = stop;
  }

  /** It was cancelled, taken over, or the service ends. */
  static final class Ended extends RuntimeException {
    private static final long serialVersionUID = 1L;

    Ended() {
      super("ended", null, false, false);
    }
  }

  /**
   * What was written.
   *
   * @param clinics whose resources are in it
   */
  record Result(List<ExportJob.Output> output, Set<Clinic> clinics) {}

  /** What is being counted. */
  private static final class Tally {
    final long total;
    final Set<Clinic> clinics = new TreeSet<>();
    long written;

    Tally(long total) {
      this.total = total;
    }
  }

  /**
   * Writes the files, in the name of the owner, whom the thread works for.
   *
   * @throws Ended where nothing more is to be written
   */
  Result write(ExportJob job) throws IOException {
    List<ExportJob.Output> output = new ArrayList<>();
    List<Long> counts = new ArrayList<>();
    for (String type : job.wanted().types()) {
      counts.add(index.count(query(job, type), job.moment()));
    }
    Tally tally = new Tally(counts.stream().mapToLong(Long::longValue).sum());
    alive(job, tally);
    for (int i = 0; i < counts.size(); i++) {
      if (counts.get(i) > 0) {
        String type = job.wanted().types().get(i);
        long before = tally.written;
        folder.write(job, type, out -> write(job, type, tally, out));
        output.add(new ExportJob.Output(type, tally.written - before));
      }
    }
    return new Result(output, tally.clinics);
  }

  private void write(ExportJob job, String type, Tally tally, OutputStream file)
      throws IOException {
    OutputStream out = new BufferedOutputStream(file);
    List<FiledResource> page;
    @Nullable String after = null;
    do {
      page = index.search(query(job, type), job.moment(), after, PAGE);
      for (FiledResource one : page) {
        out.write(lines.line(one));
        out.write('\n');
        Identifier clinic = one.treatment().clinic();
        tally.clinics.add(new Clinic(clinic.system(), clinic.value()));
        after = one.id();
      }
      tally.written += page.size();
      alive(job, tally);
    } while (page.size() == PAGE);
    out.flush();
  }

  private void alive(ExportJob job, Tally tally) {
    Instant until = clock.instant().plus(settings.lease());
    if (stop.getAsBoolean() || !rows.renew(job, tally.written, tally.total, until)) {
      throw new Ended();
    }
  }

  private static ResourceQuery query(ExportJob job, String type) {
    Instant since = job.wanted().since();
    List<List<TimeSpan>> updated =
        since == null ? List.of() : List.of(List.of(new TimeSpan(since, null, true)));
    return ResourceQuery.updated(type, updated);
  }
}
