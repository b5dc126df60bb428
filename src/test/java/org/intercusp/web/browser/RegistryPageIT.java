package org.intercusp.web.browser;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import java.nio.file.Path;
import org.intercusp.web.browser.Visit.Look;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** The registry's report as people look at it, with some hundred generated cases in it. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class RegistryPageIT {

  private Rig rig;

  @BeforeAll
  void start(@TempDir Path data) throws Exception {
    rig = Rig.alone(data);
    rig.outcomes(1500);
  }

  @AfterAll
  void stop() {
    if (rig != null) {
      rig.close();
    }
  }

  @Tag("long")
  @ParameterizedTest
  @EnumSource(Look.class)
  void theRegistrysReportIsReadAtEveryWidth(Look look) throws Exception {
    try (Visit visit = rig.visit(look).open("/registry/report")) {
      Page page = visit.page();
      assertThat(page.locator("#report figure svg")).not().hasCount(0);
      // Charts name clinics by their value, uncut; tables by system and value.
      assertThat(page.locator("#report svg text").getByText("clinic-01").first()).isVisible();
      assertThat(page.locator("#report svg").getByText("|").first()).not().isAttached();
      assertThat(page.locator("#report table").first()).isAttached();
      Object outside =
          page.evaluate(
              "() => [...document.querySelectorAll('#report svg')].flatMap(svg => {"
                  + " const frame = svg.getBoundingClientRect();"
                  + " return [...svg.querySelectorAll('text')].filter(text => {"
                  + "  const box = text.getBoundingClientRect();"
                  + "  return box.left < frame.left - 1 || box.right > frame.right + 1"
                  + "   || box.height < 9.5; }).map(text => text.textContent); }).join('; ')");
      assertThat((String) outside).as("cut, or too small to read").isEmpty();
      visit.picture("registry-report").accessible();
    }
  }
}
