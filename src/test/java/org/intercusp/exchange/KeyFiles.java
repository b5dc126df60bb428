package org.intercusp.exchange;

import com.nimbusds.jose.jwk.Curve;
import com.nimbusds.jose.jwk.JWK;
import com.nimbusds.jose.jwk.JWKSet;
import com.nimbusds.jose.jwk.gen.ECKeyGenerator;
import com.nimbusds.jose.jwk.gen.RSAKeyGenerator;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;

/** Key files as an operator makes them. */
public final class KeyFiles {

  private KeyFiles() {}

  public static JWK key(String algorithm, String kid) throws Exception {
    return algorithm.equals("RS384")
        ? new RSAKeyGenerator(2048).keyID(kid).generate()
        : new ECKeyGenerator(Curve.P_384).keyID(kid).generate();
  }

  public static Path file(Path folder, JWK... keys) throws Exception {
    Path file = Files.createTempFile(folder, "keys", ".json");
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-------"));
    return Files.writeString(file, new JWKSet(List.of(keys)).toString(false));
  }
}
