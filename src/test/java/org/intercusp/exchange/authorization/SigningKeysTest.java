package org.intercusp.exchange.authorization;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.nimbusds.jose.jwk.JWK;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import org.intercusp.exchange.KeyFiles;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Which key files are taken. */
class SigningKeysTest {

  @TempDir Path folder;

  @Test
  void refusesKeyFilesThatAreNotSafe() throws Exception {
    JWK key = KeyFiles.key("ES384", "one");
    Path open = KeyFiles.file(folder, key);
    Files.setPosixFilePermissions(open, PosixFilePermissions.fromString("rw-r-----"));
    Path two = KeyFiles.file(folder, key, KeyFiles.key("RS384", "two"));
    Path half = KeyFiles.file(folder, key.toPublicJWK());

    assertThatThrownBy(() -> SigningKeys.read(open, null, null)).hasMessageContaining("chmod 600");
    assertThatThrownBy(() -> SigningKeys.read(two, null, null)).hasMessageStartingWith("kid");
    assertThatThrownBy(() -> SigningKeys.read(two, "three", null)).hasMessageStartingWith("kid");
    assertThatThrownBy(() -> SigningKeys.read(two, "two", "ES384"))
        .hasMessageStartingWith("algorithm");
    assertThatThrownBy(() -> SigningKeys.read(half, null, null)).hasMessageContaining("private");
    assertThat(SigningKeys.read(two, "two", "RS384")).hasToString("SigningKeys[two]");
  }
}
