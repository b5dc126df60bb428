package org.intercusp.app.security;

import jakarta.servlet.ReadListener;
import jakarta.servlet.ServletInputStream;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletRequestWrapper;
import java.io.IOException;
import org.intercusp.web.api.BodyTooLong;

/** A request whose body may be read up to a length; reading on fails. */
final class BoundedRequest extends HttpServletRequestWrapper {

  private final long most;
  private boolean cutOff;

  BoundedRequest(HttpServletRequest request, long most) {
    super(request);
    this.most = most;
  }

  boolean isCutOff() {
    return cutOff;
  }

  @Override
  public ServletInputStream getInputStream() throws IOException {
    return new Counted(super.getInputStream());
  }

  private final class Counted extends ServletInputStream {

    private final ServletInputStream in;
    private long read;

    Counted(ServletInputStream in) {
      this.in = in;
    }

    @Override
    public int read() throws IOException {
      int one = in.read();
      count(one < 0 ? 0 : 1);
      return one;
    }

    @Override
    public int read(byte[] into, int offset, int length) throws IOException {
      int some = in.read(into, offset, length);
      count(Math.max(some, 0));
      return some;
    }

    private void count(int some) throws IOException {
      read += some;
      if (read > most) {
        cutOff = true;
        throw new BodyTooLong(most);
      }
    }

    @Override
    public boolean isFinished() {
      return in.isFinished();
    }

    @Override
    public boolean isReady() {
      return in.isReady();
    }

    @Override
    public void setReadListener(ReadListener listener) {
      in.setReadListener(listener);
    }
  }
}
