package org.intercusp.exchange.authorization;

import java.net.URI;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What a recipient wants to see before it answers. None of these shows a secret as text. */
public sealed interface Authorization {

  /** Nothing, or a client certificate alone. */
  record None() implements Authorization {}

  /**
   * A bearer token that people gave out. Refused: one with characters a header must not have.
   *
   * @param token as it is sent (RFC 6750, section 2.1)
   */
  record Fixed(String token) implements Authorization {
    public Fixed {
      if (!token.matches("[A-Za-z0-9\\-._~+/]+=*")) {
        throw new IllegalArgumentException("is no bearer token (RFC 6750, section 2.1)");
      }
    }

    @Override
    public String toString() {
      return "Fixed[]";
    }
  }

  /**
   * SMART Backend Services (SMART App Launch 2.2, Backend Services): short-lived tokens from the
   * recipient's authorization server, asked for with an assertion that our key signs.
   *
   * @param clientId what the authorization server calls us
   * @param tokenEndpoint where tokens are asked for; absent where the FHIR base says it itself in
   *     {@code .well-known/smart-configuration}, which may then name only its own origin
   * @param scopes what is asked for, such as {@code system/*.cruds}
   */
  record Backend(
      String clientId, @Nullable URI tokenEndpoint, SigningKeys keys, List<String> scopes)
      implements Authorization {

    public Backend {
      if (clientId.isBlank()) {
        throw new IllegalArgumentException("client-id is blank");
      }
      scopes = List.copyOf(scopes);
      if (scopes.isEmpty() || !scopes.stream().allMatch(one -> one.matches("[!#-\\[\\]-~]+"))) {
        throw new IllegalArgumentException("scopes needs at least one scope (RFC 6749, 3.3)");
      }
    }

    @Override
    public String toString() {
      return "Backend[" + clientId + "]";
    }
  }
}
