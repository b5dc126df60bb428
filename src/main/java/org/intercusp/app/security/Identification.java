package org.intercusp.app.security;

import java.util.List;
import java.util.Map;
import org.intercusp.access.Caller;
import org.intercusp.access.Scopes;
import org.jspecify.annotations.Nullable;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.GrantedAuthority;
import org.springframework.security.oauth2.client.authentication.OAuth2AuthenticationToken;
import org.springframework.security.oauth2.server.resource.authentication.JwtAuthenticationToken;
import org.springframework.stereotype.Component;

/** Who a request comes from, by the token or login that was checked before. */
@Component
class Identification {

  private static final String SCOPE = "SCOPE_";

  private final LoginSettings login;

  Identification(LoginSettings login) {
    this.login = login;
  }

  /** The caller; nobody where people log in and this one has not. */
  Caller of(@Nullable Authentication authentication) {
    if (!login.isOn()) {
      return Caller.LOCAL;
    }
    if (authentication instanceof JwtAuthenticationToken token) {
      Map<String, Object> claims = token.getToken().getClaims();
      boolean person = claims.containsKey("name") || claims.containsKey("preferred_username");
      return caller(token, claims, person ? Caller.Kind.PERSON : Caller.Kind.PROGRAM);
    }
    if (authentication instanceof OAuth2AuthenticationToken session) {
      return caller(session, session.getPrincipal().getAttributes(), Caller.Kind.PERSON);
    }
    return Caller.NOBODY;
  }

  private Caller caller(
      Authentication authentication, Map<String, Object> claims, Caller.Kind kind) {
    String subject = authentication.getName();
    List<String> scopes =
        authentication.getAuthorities().stream()
            .map(GrantedAuthority::getAuthority)
            .filter(word -> word != null && word.startsWith(SCOPE))
            .map(word -> word.substring(SCOPE.length()))
            .toList();
    return new Caller(
        subject,
        text(claims, "name", text(claims, "preferred_username", subject)),
        kind,
        login.reach(claims.get(login.tenantClaim()) instanceof String tenant ? tenant : null),
        Scopes.of(scopes));
  }

  private static String text(Map<String, Object> claims, String claim, String otherwise) {
    return claims.get(claim) instanceof String words && !words.isBlank() ? words : otherwise;
  }
}
