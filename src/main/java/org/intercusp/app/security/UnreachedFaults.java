package org.intercusp.app.security;

import java.io.IOException;
import org.apache.catalina.connector.Request;
import org.apache.catalina.connector.Response;
import org.apache.catalina.core.StandardHost;
import org.apache.catalina.valves.ErrorReportValve;
import org.springframework.boot.tomcat.ConfigurableTomcatWebServerFactory;
import org.springframework.boot.web.server.WebServerFactoryCustomizer;
import org.springframework.core.Ordered;
import org.springframework.stereotype.Component;

/**
 * What the HTTP server refuses before any filter sees it, such as an address with an encoded slash,
 * is told as every other refusal is instead of on a page of the server's own.
 */
@Component
class UnreachedFaults
    implements WebServerFactoryCustomizer<ConfigurableTomcatWebServerFactory>, Ordered {

  private final Refusals refusals;

  UnreachedFaults(Refusals refusals) {
    this.refusals = refusals;
  }

  /** Behind the server's own report, which says nothing where something was said. */
  @Override
  public int getOrder() {
    return Ordered.LOWEST_PRECEDENCE;
  }

  @Override
  public void customize(ConfigurableTomcatWebServerFactory factory) {
    factory.addContextCustomizers(
        context -> {
          StandardHost host = (StandardHost) context.getParent();
          host.getPipeline().addValve(new Report(refusals));
          host.setErrorReportValveClass(Report.class.getName());
        });
  }

  private static final class Report extends ErrorReportValve {

    private final Refusals refusals;

    Report(Refusals refusals) {
      this.refusals = refusals;
    }

    @Override
    protected void report(Request request, Response response, Throwable fault) {
      if (response.getStatus() != Refusal.MALFORMED.status()
          || response.getContentWritten() > 0
          || !response.setErrorReported()) {
        return;
      }
      try {
        refusals.write(Refusal.MALFORMED, request.getRequest(), response.getResponse());
        response.finishResponse();
      } catch (IOException e) {
        // Whoever asked is gone.
        container.getLogger().debug("a refusal could not be written", e);
      }
    }
  }
}
