package org.intercusp.app.security;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.Optional;
import org.intercusp.access.Caller;
import org.springframework.web.filter.OncePerRequestFilter;

/**
 * Turns floods away before anything costly is done for them: before a signature is checked, a row
 * written or a page made.
 *
 * <p>Many callers may share an address (a clinic behind one router, everybody behind a reverse
 * proxy), so who has proved to be somebody is never counted by address, and a flood of others from
 * there does not lock them out:
 *
 * <ul>
 *   <li>a session (there is one after a login only) and a token that was good when it last came are
 *       counted by caller alone. The token is checked again each time; only where its caller has no
 *       request left this minute is it turned away unchecked, so the holder of one good token does
 *       not buy signature checks without end;
 *   <li>everything else counts by address, a token never seen before too. When such a token proves
 *       good, its request is given back. So an address has at most {@link RateSettings#address}
 *       junk tokens a minute checked, 6000 by default: with 0.1 ms for an RSA or EC check that is
 *       one per cent of a core.
 * </ul>
 *
 * <p>What remains: while an address floods, a new token from there competes with the flood for the
 * same checks and may have to come again. To tell the callers behind a reverse proxy apart, let it
 * say where they come from, and set {@code server.forward-headers-strategy=native}; the proxy's
 * header is then taken from private addresses only. It is off by default, since without a proxy
 * anybody could write the header.
 */
class FloodFilter extends OncePerRequestFilter {

  private final Rates rates;
  private final LoginSettings login;
  private final GoodTokens tokens = new GoodTokens();

  FloodFilter(Rates rates, LoginSettings login) {
    this.rates = rates;
    this.login = login;
  }

  /** Where nobody logs in, all come from this machine and count together. */
  @Override
  protected boolean shouldNotFilter(HttpServletRequest request) {
    return !login.isOn();
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    Optional<String> subject = tokens.subject(request);
    boolean proved = subject.isPresent() || comesBySession(request);
    boolean tooMuch =
        subject.isPresent()
            ? rates.isSpent(subject.get(), request, response)
            : !proved && rates.isTooMuch(request, response);
    if (tooMuch) {
      return;
    }
    chain.doFilter(request, response);
    learn(request, proved);
  }

  // With a token the session is not asked.
  private static boolean comesBySession(HttpServletRequest request) {
    return request.getHeader("Authorization") == null && request.getSession(false) != null;
  }

  private void learn(HttpServletRequest request, boolean proved) {
    if (request.getAttribute(CallerFilter.CALLER) instanceof Caller caller
        && (caller.kind() == Caller.Kind.PERSON || caller.kind() == Caller.Kind.PROGRAM)) {
      tokens.proved(request, caller.subject());
      if (!proved) {
        rates.giveBack(request);
      }
    } else {
      tokens.failed(request);
    }
  }
}
