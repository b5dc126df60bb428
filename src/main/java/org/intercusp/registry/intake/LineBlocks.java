package org.intercusp.registry.intake;

import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import org.intercusp.treatment.shape.JsonText;
import org.jspecify.annotations.Nullable;

/**
 * An input cut into blocks of whole lines, each small enough for several to be held at once. Of a
 * line that is too long only so much is kept that it is still refused.
 */
final class LineBlocks {

  /** Bytes of a block; common practice, no source. */
  private static final int BLOCK = 1 << 20;

  /** Lines of a block: short ones are each an object when they are refused. */
  static final int LINES = 2_000;

  /** One more than a text may have, so that what was cut is still too large. */
  private static final int KEPT = JsonText.MAX_BYTES + 1;

  /**
   * Whole lines.
   *
   * @param firstLine number of the first, from 1
   * @param length bytes of them in {@code bytes}
   * @param endLine number of the last
   * @param endOffset bytes of the input up to their end
   */
  @SuppressWarnings("ArrayRecordComponent") // Handed on once and never compared.
  record Block(long firstLine, byte[] bytes, int length, long endLine, long endOffset) {

    /** Where it stands, without what it holds. */
    Block place() {
      return new Block(firstLine, new byte[0], 0, endLine, endOffset);
    }

    long lines() {
      return endLine - firstLine + 1;
    }
  }

  private final Deque<Block> pieces = new ArrayDeque<>();
  private final InputStream in;
  private byte[] buffer = new byte[BLOCK];
  private int filled;
  private long line;
  private long offset;
  private boolean ended;

  /**
   * Starts at the beginning of a line.
   *
   * @param line lines before it
   * @param offset bytes before it
   */
  LineBlocks(InputStream in, long line, long offset) {
    this.in = in;
    this.line = line;
    this.offset = offset;
  }

  /** The next block, or null at the end. */
  @Nullable Block next() throws IOException {
    if (pieces.isEmpty()) {
      Block block = whole();
      if (block == null || block.lines() <= LINES) {
        return block;
      }
      cut(block);
    }
    return pieces.remove();
  }

  private void cut(Block block) {
    long before = block.endOffset() - block.length();
    long first = block.firstLine();
    int from = 0;
    int lines = 0;
    for (int at = 0; at < block.length(); at++) {
      boolean last = at == block.length() - 1;
      lines += last || block.bytes()[at] == '\n' ? 1 : 0;
      if (last || lines == LINES) {
        byte[] bytes = Arrays.copyOfRange(block.bytes(), from, at + 1);
        pieces.add(new Block(first, bytes, bytes.length, first + lines - 1, before + at + 1));
        first += lines;
        lines = 0;
        from = at + 1;
      }
    }
  }

  private @Nullable Block whole() throws IOException {
    while (!ended) {
      fill();
      int end = ended ? filled : lastLineEnd();
      if (end > 0) {
        return block(end);
      }
      if (!ended && filled == buffer.length) {
        if (filled > KEPT) {
          return oversized();
        }
        buffer = Arrays.copyOf(buffer, Math.min(2 * filled, KEPT + BLOCK));
      }
    }
    return null;
  }

  private void fill() throws IOException {
    while (filled < buffer.length) {
      int read = in.read(buffer, filled, buffer.length - filled);
      if (read < 0) {
        ended = true;
        return;
      }
      filled += read;
    }
  }

  private int lastLineEnd() {
    int at = filled;
    while (at > 0 && buffer[at - 1] != '\n') {
      at--;
    }
    return at;
  }

  private Block block(int end) {
    byte[] bytes = buffer;
    buffer = new byte[BLOCK];
    System.arraycopy(bytes, end, buffer, 0, Math.min(filled - end, BLOCK));
    int rest = filled - end;
    if (rest > BLOCK) {
      buffer = Arrays.copyOfRange(bytes, end, end + rest);
    }
    filled = rest;
    long first = line + 1;
    for (int i = 0; i < end; i++) {
      line += bytes[i] == '\n' ? 1 : 0;
    }
    if (end > 0 && bytes[end - 1] != '\n') {
      line++;
    }
    offset += end;
    return new Block(first, bytes, end, line, offset);
  }

  /** The start of a line that is too long; the rest of it is passed over. */
  private Block oversized() throws IOException {
    byte[] bytes = Arrays.copyOf(buffer, KEPT);
    offset += filled;
    filled = 0;
    line++;
    byte[] rest = new byte[BLOCK];
    while (true) {
      int read = in.read(rest, 0, rest.length);
      if (read < 0) {
        ended = true;
        break;
      }
      int at = 0;
      while (at < read && rest[at] != '\n') {
        at++;
      }
      offset += Math.min(read, at + 1);
      if (at < read) {
        filled = read - at - 1;
        buffer = new byte[BLOCK];
        System.arraycopy(rest, at + 1, buffer, 0, filled);
        break;
      }
    }
    return new Block(line, bytes, KEPT, line, offset);
  }
}
