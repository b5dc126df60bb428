package org.intercusp.web.browser;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Playwright;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.intercusp.exchange.Absence;

/** The installed Chromium, without a window; never one that is fetched. */
final class Browsers implements AutoCloseable {

  /** Where systems put it, after the one that is named. */
  private static final List<String> PLACES =
      List.of("/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome");

  private final Playwright playwright;
  private final Browser browser;

  private Browsers(Playwright playwright, Browser browser) {
    this.playwright = playwright;
    this.browser = browser;
  }

  /** Starts it; skips the test where none is installed. */
  static Browsers start() {
    Path program =
        installed()
            .orElseThrow(
                () -> Absence.of("no Chromium is installed, which the page tests look with"));
    Playwright playwright =
        Playwright.create(
            new Playwright.CreateOptions().setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
    Browser browser =
        playwright
            .chromium()
            .launch(
                new BrowserType.LaunchOptions()
                    .setExecutablePath(program)
                    .setArgs(List.of("--no-sandbox", "--disable-dev-shm-usage")));
    return new Browsers(playwright, browser);
  }

  private static Optional<Path> installed() {
    return Stream.concat(Stream.ofNullable(System.getenv("CHROME_BIN")), PLACES.stream())
        .map(Path::of)
        .filter(Files::isExecutable)
        .findFirst();
  }

  Browser browser() {
    return browser;
  }

  @Override
  public void close() {
    browser.close();
    playwright.close();
  }
}
