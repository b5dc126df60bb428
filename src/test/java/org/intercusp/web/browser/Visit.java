package org.intercusp.web.browser;

import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.args.AxeRunOnlyOptions;
import com.deque.html.axecore.args.AxeRunOptions;
import com.deque.html.axecore.playwright.AxeBuilder;
import com.deque.html.axecore.results.Rule;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.PlaywrightException;
import com.microsoft.playwright.options.ColorScheme;
import java.net.URI;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/**
 * One person's visit, at a width and in a colour scheme. It keeps every request to another host and
 * every word on the console, and fails for any.
 */
final class Visit implements AutoCloseable {

  /** What is looked at: a phone and a desk, by day and by night. */
  enum Look {
    PHONE_LIGHT(360, 740, ColorScheme.LIGHT),
    PHONE_DARK(360, 740, ColorScheme.DARK),
    DESK_LIGHT(1280, 900, ColorScheme.LIGHT),
    DESK_DARK(1280, 900, ColorScheme.DARK);

    private final int width;
    private final int height;
    private final ColorScheme scheme;

    Look(int width, int height, ColorScheme scheme) {
      this.width = width;
      this.height = height;
      this.scheme = scheme;
    }

    /**
     * Those of this run: both widths and both schemes in two looks; all four with {@code -Plong}.
     */
    static Stream<Look> today() {
      boolean all = Boolean.getBoolean("intercusp.long");
      return all ? Stream.of(values()) : Stream.of(PHONE_DARK, DESK_LIGHT);
    }
  }

  /** Web Content Accessibility Guidelines 2.2, levels A and AA, by the engine's names. */
  private static final List<String> WCAG =
      List.of("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa");

  private final String origin;
  private final Look look;
  private final BrowserContext context;
  private final Page page;
  private final List<String> elsewhere = new ArrayList<>();
  private final List<String> console = new ArrayList<>();

  Visit(Browser browser, String origin, Look look, boolean scripted) {
    this.origin = origin;
    this.look = look;
    context =
        browser.newContext(
            new Browser.NewContextOptions()
                .setViewportSize(look.width, look.height)
                .setColorScheme(look.scheme)
                .setJavaScriptEnabled(scripted));
    context.setDefaultTimeout(20_000);
    page = context.newPage();
    page.onRequest(
        request -> {
          URI to = URI.create(request.url());
          if (!"data".equals(to.getScheme()) && !request.url().startsWith(origin + "/")) {
            elsewhere.add(request.url());
          }
        });
    page.onConsoleMessage(
        message -> {
          // A browser writes a line for each answer of 400 and above, which the forms give on
          // purpose.
          if (List.of("error", "warning").contains(message.type())
              && !message.text().startsWith("Failed to load resource")) {
            console.add(message.text());
          }
        });
    page.onPageError(console::add);
  }

  Page page() {
    return page;
  }

  Visit open(String path) {
    page.navigate(origin + path);
    return this;
  }

  /** A picture of the whole page, kept with what the build leaves. */
  Visit picture(String name) {
    Path file =
        Path.of("target/screenshots", name + "-" + look.name().toLowerCase(Locale.ROOT) + ".png");
    Page.ScreenshotOptions whole = new Page.ScreenshotOptions().setPath(file).setFullPage(true);
    try {
      page.screenshot(whole);
    } catch (PlaywrightException e) {
      // A crowded machine's browser was seen to be unable once; twice is a fault.
      System.out.println("Pictured again: " + name);
      page.screenshot(whole);
    }
    return this;
  }

  /** Nothing against the accessibility guidelines, and nothing wider than the window. */
  Visit accessible() {
    List<Rule> violations =
        new AxeBuilder(page).options(asked()).setLegacyMode(true).analyze().getViolations();
    assertThat(violations.stream().map(Visit::words).toList()).as(page.url()).isEmpty();
    Object overflow =
        page.evaluate("() => document.documentElement.scrollWidth - window.innerWidth");
    assertThat(((Number) overflow).intValue())
        .as("overflow of " + page.url())
        .isLessThanOrEqualTo(0);
    return this;
  }

  // What is in order is not told of: on pages with hundreds of elements that is most of the work.
  // No page has a frame, which is all that is done otherwise in the engine's newer manner.
  private static AxeRunOptions asked() {
    AxeRunOnlyOptions only = new AxeRunOnlyOptions();
    only.setType("tag");
    only.setValues(WCAG);
    AxeRunOptions options = new AxeRunOptions();
    options.setRunOnly(only);
    options.setResultTypes(List.of("violations"));
    return options;
  }

  private static String words(Rule rule) {
    return rule.getId()
        + ": "
        + rule.getHelp()
        + " "
        + rule.getNodes().stream().map(node -> node.getHtml()).limit(3).toList();
  }

  @Override
  public void close() {
    context.close();
    assertThat(elsewhere).as("requests to other hosts").isEmpty();
    assertThat(console).as("errors and warnings on the console").isEmpty();
  }
}
