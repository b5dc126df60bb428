package org.intercusp.app.security;

import java.util.function.Supplier;
import org.intercusp.access.Caller;
import org.jspecify.annotations.Nullable;
import org.springframework.security.authorization.AuthorizationDecision;
import org.springframework.security.authorization.AuthorizationManager;
import org.springframework.security.authorization.AuthorizationResult;
import org.springframework.security.core.Authentication;
import org.springframework.security.web.access.intercept.RequestAuthorizationContext;

/** Lets in whom the decisions let in; nobody to a path that nobody decided about. */
final class Entrance implements AuthorizationManager<RequestAuthorizationContext> {

  private final Identification identification;
  private final Decisions decisions = new Decisions();

  Entrance(Identification identification) {
    this.identification = identification;
  }

  @Override
  public @Nullable AuthorizationResult authorize(
      Supplier<? extends @Nullable Authentication> authentication,
      RequestAuthorizationContext context) {
    Caller caller = identification.of(authentication.get());
    if (caller.kind() == Caller.Kind.LOCAL) {
      return new AuthorizationDecision(true);
    }
    return new AuthorizationDecision(
        decisions
            .of(context.getRequest().getMethod(), context.getRequest().getRequestURI())
            .filter(need -> need.isMetBy(caller))
            .isPresent());
  }
}
