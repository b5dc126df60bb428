package org.intercusp.exchange.wire;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.Flow;
import org.jspecify.annotations.Nullable;

/** Collects a body as it arrives and ends the connection where it grows too long. */
final class BoundedBody implements HttpResponse.BodySubscriber<byte[]> {

  /** The body was longer than is taken. */
  static final class TooLong extends IOException {
    private static final long serialVersionUID = 1L;

    TooLong(int most) {
      super("more than " + most + " bytes");
    }
  }

  private final int most;
  private final ByteArrayOutputStream taken = new ByteArrayOutputStream();
  private final CompletableFuture<byte[]> body = new CompletableFuture<>();
  private Flow.@Nullable Subscription subscription;

  BoundedBody(int most) {
    this.most = most;
  }

  @Override
  public CompletionStage<byte[]> getBody() {
    return body;
  }

  @Override
  public void onSubscribe(Flow.Subscription given) {
    subscription = given;
    given.request(Long.MAX_VALUE);
  }

  @Override
  public void onNext(List<ByteBuffer> buffers) {
    for (ByteBuffer buffer : buffers) {
      if (buffer.remaining() > most - taken.size()) {
        if (subscription != null) {
          subscription.cancel();
        }
        body.completeExceptionally(new TooLong(most));
        return;
      }
      byte[] bytes = new byte[buffer.remaining()];
      buffer.get(bytes);
      taken.writeBytes(bytes);
    }
  }

  @Override
  public void onError(Throwable fault) {
    body.completeExceptionally(fault);
  }

  @Override
  public void onComplete() {
    body.complete(taken.toByteArray());
  }
}
