package org.intercusp.archive;

import com.zaxxer.hikari.HikariDataSource;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.Path;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import org.h2.store.fs.FileBase;
import org.h2.store.fs.FilePath;
import org.h2.store.fs.FilePathWrapper;

/** A disk under the embedded database that fills up and is emptied again to order. */
public final class ScarceDisk extends FilePathWrapper {

  private static final String SCHEME = "scarce";
  private static final AtomicBoolean FULL = new AtomicBoolean();
  private static final AtomicInteger REFUSED = new AtomicInteger();

  static {
    FilePath.register(new ScarceDisk());
  }

  /** An embedded database with the service's own settings on this disk. */
  public static HikariDataSource database(Path file) {
    // Without its own log file, which has no room either and is loud about it.
    return Databases.opened(
        Databases.url(file).replace("jdbc:h2:async:", "jdbc:h2:scarce:") + ";TRACE_LEVEL_FILE=0");
  }

  /** From now on nothing can be written, or everything again. */
  public static void full(boolean is) {
    FULL.set(is);
  }

  /** How many writes found no room so far. */
  public static int refused() {
    return REFUSED.get();
  }

  @Override
  public String getScheme() {
    return SCHEME;
  }

  @Override
  public OutputStream newOutputStream(boolean append) throws IOException {
    room();
    return super.newOutputStream(append);
  }

  @Override
  public FileChannel open(String mode) throws IOException {
    return new Channel(super.open(mode));
  }

  private static void room() throws IOException {
    if (FULL.get()) {
      REFUSED.incrementAndGet();
      throw new IOException("No space left on device");
    }
  }

  private static final class Channel extends FileBase {
    private final FileChannel real;

    Channel(FileChannel real) {
      this.real = real;
    }

    @Override
    public int write(ByteBuffer from) throws IOException {
      room();
      return real.write(from);
    }

    @Override
    public int write(ByteBuffer from, long position) throws IOException {
      room();
      return real.write(from, position);
    }

    @Override
    public int read(ByteBuffer into) throws IOException {
      return real.read(into);
    }

    @Override
    public int read(ByteBuffer into, long position) throws IOException {
      return real.read(into, position);
    }

    @Override
    public long position() throws IOException {
      return real.position();
    }

    @Override
    public FileChannel position(long position) throws IOException {
      real.position(position);
      return this;
    }

    @Override
    public long size() throws IOException {
      return real.size();
    }

    @Override
    public FileChannel truncate(long size) throws IOException {
      real.truncate(size);
      return this;
    }

    @Override
    public void force(boolean metadata) throws IOException {
      real.force(metadata);
    }

    @Override
    public FileLock tryLock(long position, long size, boolean shared) throws IOException {
      return real.tryLock(position, size, shared);
    }

    @Override
    protected void implCloseChannel() throws IOException {
      real.close();
    }
  }
}
