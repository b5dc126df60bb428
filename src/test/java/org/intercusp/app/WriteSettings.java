package org.intercusp.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Writes the reference of the settings anew, on purpose; no test does. */
public final class WriteSettings {

  static final Path FILE = Path.of("src/main/resources/settings/reference.md");

  private WriteSettings() {}

  /** Takes no arguments. */
  public static void main(String[] arguments) throws IOException {
    Files.createDirectories(FILE.getParent());
    Files.writeString(FILE, SettingsReference.text(SettingsReference.all()));
    System.out.println("wrote " + FILE);
  }
}
