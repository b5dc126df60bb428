package org.intercusp.web.browser;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.intercusp.web.browser.FormSteps.bite;
import static org.intercusp.web.browser.FormSteps.fill;
import static org.intercusp.web.browser.FormSteps.group;
import static org.intercusp.web.browser.FormSteps.heading;
import static org.intercusp.web.browser.FormSteps.press;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.intercusp.web.browser.Visit.Look;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * What people do on the pages, in the installed Chromium, on the running service with a real
 * records server beside it. One service and one browser serve all tests; each test has a treatment
 * of its own. Skipped where no browser is installed.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class PagesIT {

  private static final String LOOKS = "org.intercusp.web.browser.Visit$Look#today";

  private Rig rig;

  @BeforeAll
  void start(@TempDir Path data) {
    rig = Rig.start(data);
  }

  @AfterAll
  void stop() {
    if (rig != null) {
      rig.close();
    }
  }

  /** What the other tests hold against a page would be seen. */
  @Test
  void whatShutsPeopleOutIsSeen() {
    try (Visit visit = rig.visit(Look.DESK_LIGHT).open("/")) {
      Page page = visit.page();
      page.evaluate(
          "const word = document.createElement('p'); word.textContent = 'hardly to be read';"
              + "word.style.color = '#bbb'; word.style.background = '#fff';"
              + "document.querySelector('main').append(word, document.createElement('input'))");
      assertThatThrownBy(visit::accessible).hasMessageContaining("color-contrast");
      assertThatThrownBy(visit::accessible).hasMessageContaining("label: ");
    }
  }

  @ParameterizedTest
  @MethodSource(LOOKS)
  void aBiteIsRecordedAndTheDrawingMoves(Look look) throws Exception {
    String id = rig.treatment("slow-progress-doubtful-wear", "bite-" + look.name());
    try (Visit visit = rig.visit(look).open("/treatments/" + id + "/bites/new")) {
      visit.accessible();
      Page page = visit.page();
      fill(
          page, Map.of("habitualReading", "0", "registeredReading", "8,5", "maximumReading", "13"));
      assertThat(page.locator("#live")).containsText("65.4 %");
      assertThat(page.locator("#live svg")).hasCount(0);
      fill(page, Map.of("overjetHabitual", "9", "overbiteHabitual", "4"));
      fill(page, Map.of("overjetInBite", "0.5", "incisalClearance", "2"));
      fill(page, Map.of("upperIncisorHeight", "9.5", "lowerIncisorHeight", "8"));
      Locator drawing = page.locator("#live svg");
      assertThat(drawing).containsText("registered, 65.4 %");
      assertThat(page.locator("#live")).containsText("gap first premolar");
      page.getByLabel("Registered mm").fill("9.5");
      assertThat(drawing).containsText("registered, 73.1 %");
      assertThat(page.locator("#live")).containsText("bite-share-exceeded");
      assertThat(page.locator("#said")).containsText("error 1");
      visit.picture("bite-form").accessible();
      press(page, "Save");
      assertThat(page.getByRole(AriaRole.HEADING, heading("bite-2 saved"))).isVisible();
      visit.picture("bite-saved").accessible();
    }
    assertThat(rig.get("/treatments/" + id)).contains("\"registeredReading\":9.5");
  }

  @ParameterizedTest
  @MethodSource(LOOKS)
  void aReviewIsRecordedWithRowsAndHarmGoesOut(Look look) throws Exception {
    String id = rig.treatment("slow-progress-doubtful-wear", "review-" + look.name());
    try (Visit visit = rig.visit(look).open("/treatments/" + id + "/reviews/new")) {
      visit.accessible();
      Page page = visit.page();
      assertThat(page.locator("aside")).containsText("Expected overjet");
      press(page, "Add adverse event");
      Locator row = page.getByRole(AriaRole.GROUP, group("adverse event 1"));
      assertThat(row.getByLabel("What", new Locator.GetByLabelOptions().setExact(true)))
          .isFocused();
      row.getByLabel("What", new Locator.GetByLabelOptions().setExact(true))
          .selectOption("fragment-swallowed");
      assertThat(page.locator("#live .sheet-harm"))
          .containsText("stops only the next appliance order");
      row.getByLabel("How bad").selectOption("mild");
      row.getByLabel("Serious").selectOption("false");
      row.getByLabel("Appliance suspected").selectOption("true");
      row.getByLabel("Began on").fill("2026-08-01");
      press(page, "Add breakage");
      Locator broken = page.getByRole(AriaRole.GROUP, group("breakage 1"));
      broken.getByLabel("Appliance").selectOption("app-1");
      broken.getByLabel("Part").selectOption("clasp");
      broken.getByLabel("What was done").selectOption("repaired");
      page.getByLabel("Date", new Page.GetByLabelOptions().setExact(true)).fill("2026-08-03");
      fill(page, Map.of("overjet", "6.5", "overbite", "3"));
      fill(page, Map.of("molarRelation/right", "3", "molarRelation/left", "3"));
      assertThat(page.locator("#live")).containsText("review-harm");
      visit.picture("review-form").accessible();
      press(page, "Save");
      assertThat(page.getByRole(AriaRole.HEADING, heading("review-5 saved"))).isVisible();
      assertThat(page.locator("#saved")).containsText("Harbour Lane Hospital");
      visit.picture("review-saved").accessible();
      if (look == Look.DESK_LIGHT) {
        delivered(visit, id);
      }
    }
  }

  /** Waits for the newest delivery of a treatment to arrive at the records server. */
  private void delivered(Visit visit, String id) {
    Page page = visit.page();
    Locator row =
        page.locator(".deliveries > li").filter(new Locator.FilterOptions().setHasText(id));
    for (int i = 0; i < 60; i++) {
      visit.open("/deliveries");
      if (row.count() > 0 && row.first().innerText().contains("delivered")) {
        break;
      }
      page.waitForTimeout(500);
    }
    assertThat(row.first()).containsText("delivered");
    visit.picture("deliveries").accessible();
  }

  @ParameterizedTest
  @MethodSource(LOOKS)
  void aFindingIsAcceptedTheRecordSentAndTheSummaryPrinted(Look look) throws Exception {
    String id = rig.treatment("unsafe-bite-refused", "sent-" + look.name());
    try (Visit visit = rig.visit(look).open("/?q=" + id)) {
      Page page = visit.page();
      visit.picture("worklist").accessible();
      page.locator(".worklist a").first().click();
      visit.picture("treatment").accessible();
      assertThat(page.locator("#findings")).containsText("bite-share-exceeded");
      page.getByText("Go on in spite of it").first().click();
      page.locator("#findings textarea[name=reason]").first().fill("Holds the position well.");
      page.locator("#findings input[name=family]").first().fill("Okonjo");
      page.locator("#findings input[name=value]").first().fill("S-07");
      press(page, "Accept with this reason");
      assertThat(page.locator("#findings")).containsText("Nothing stops a delivery");
      visit.picture("accepted").accessible();
      page.locator("#deliveries select[name=to]").selectOption("hospital");
      press(page, "Send");
      delivered(visit, id);
      page.getByText("Details").first().click();
      visit.picture("delivery").accessible();
      visit.open("/treatments/" + id);
      page.getByText("what changed").first().click();
      assertThat(page.locator("#compare")).containsText("Holds the position well.");
      visit.picture("compare").accessible();
      visit.open("/treatments/" + id + "/summary?for=dentist").picture("summary").accessible();
      if (look == Look.DESK_LIGHT) {
        byte[] pdf = page.pdf();
        assertThat(new String(pdf, 0, 5, StandardCharsets.ISO_8859_1)).isEqualTo("%PDF-");
        Files.write(Path.of("target/screenshots/summary-printed.pdf"), pdf);
      }
    }
    assertThat(rig.get("/treatments/" + id + "/summary?for=dentist&format=pdf"))
        .startsWith("%PDF-");
  }

  @ParameterizedTest
  @MethodSource(LOOKS)
  void everyOtherPageIsAccessible(Look look) throws Exception {
    String id = rig.treatment("deep-bite-one-step", "all-" + look.name());
    try (Visit visit = rig.visit(look)) {
      visit.open("/rules").picture("rules").accessible();
      visit.open("/recipients").picture("recipients").accessible();
      visit.open("/treatments/" + id + "/summary?for=laboratory").accessible();
      visit.open("/treatments/" + id + "/summary?for=patient").accessible();
      visit.open("/pages/treatments/new").accessible();
      press(visit.page(), "Hand in");
      assertThat(visit.page().getByRole(AriaRole.ALERT)).containsText("Choose a file first");
      Path broken = Files.writeString(Path.of("target", "broken.json"), "{\"id\": 7}");
      visit.page().getByLabel("Treatment file").setInputFiles(broken);
      press(visit.page(), "Hand in");
      assertThat(visit.page().getByRole(AriaRole.ALERT)).containsText("/id wrong-type");
      visit.picture("upload-faults").accessible();
      String own = "IT-file-" + look.name();
      Path file = Files.writeString(Path.of("target", "new.json"), Rig.sample("allergy", own));
      visit.page().getByLabel("Treatment file").setInputFiles(file);
      press(visit.page(), "Hand in");
      assertThat(visit.page().locator("#treatment")).containsText(own);
    }
  }

  @Test
  void aBiteIsRecordedWithTheKeyboardAlone() throws Exception {
    String id = rig.treatment("slow-progress-doubtful-wear", "keys");
    try (Visit visit = rig.visit(Look.DESK_LIGHT).open("/treatments/" + id + "/bites/new")) {
      Page page = visit.page();
      Map<String, String> typed =
          Map.ofEntries(
              Map.entry("habitualReading", "0"),
              Map.entry("registeredReading", "8.5"),
              Map.entry("maximumReading", "13"),
              Map.entry("overjetHabitual", "9"),
              Map.entry("overbiteHabitual", "4"),
              Map.entry("overjetInBite", "0.5"),
              Map.entry("incisalClearance", "2"),
              Map.entry("upperIncisorHeight", "9.5"),
              Map.entry("lowerIncisorHeight", "8"));
      String at = "";
      for (int i = 0; i < 80 && !at.equals("save"); i++) {
        page.keyboard().press("Tab");
        at = (String) page.evaluate("() => document.activeElement.name || ''");
        if (typed.containsKey(at)) {
          page.keyboard().type(typed.get(at));
        }
      }
      assertThat(page.locator("#live svg")).isVisible();
      page.keyboard().press("Enter");
      assertThat(page.getByRole(AriaRole.HEADING, heading("bite-2 saved"))).isVisible();
    }
  }

  @Test
  void aFormWorksWithoutScriptAndLosesNothing() throws Exception {
    String id = rig.treatment("slow-progress-doubtful-wear", "plain");
    try (Visit visit = rig.visitWithoutScript(Look.PHONE_LIGHT)) {
      Page page = visit.open("/treatments/" + id + "/bites/new").page();
      fill(
          page, Map.of("habitualReading", "0", "registeredReading", "8.5", "maximumReading", "13"));
      press(page, "Work out");
      assertThat(page.locator("#live")).containsText("65.4 %");
      page.getByLabel("Overjet, habitual mm").fill("1,234");
      page.getByLabel("Upper incisor height").fill("30");
      press(page, "Save");
      assertThat(page.locator("#faults")).containsText("Not saved: 6 to mend");
      assertThat(page.locator("#faults")).containsText("at most one decimal mark");
      assertThat(page.locator("#faults")).containsText("a number from 3 to 20 mm");
      assertThat(page.getByLabel("Overjet, habitual")).hasValue("1,234");
      visit.picture("bite-faults");
      page.locator("#faults").getByRole(AriaRole.LINK).first().click();
      assertThat(page.url()).contains("#f-");
    }
  }

  @Test
  void twoPeopleAtOnceLoseNothing() throws Exception {
    String id = rig.treatment("slow-progress-doubtful-wear", "two");
    try (Visit one = rig.visit(Look.DESK_LIGHT).open("/treatments/" + id + "/bites/new");
        Visit two = rig.visit(Look.DESK_DARK).open("/treatments/" + id + "/bites/new")) {
      bite(one.page(), "8.5");
      bite(two.page(), "7.5");
      press(one.page(), "Save");
      assertThat(one.page().getByRole(AriaRole.HEADING, heading("bite-2 saved"))).isVisible();
      press(two.page(), "Save");
      assertThat(two.page().locator("#overtaken")).containsText("Nothing you typed is lost");
      two.picture("bite-overtaken").accessible();
      assertThat(two.page().getByLabel("Registered mm")).hasValue("7.5");
      press(two.page(), "Save");
      assertThat(two.page().locator("#faults")).containsText("an id that no other entry");
      two.page().getByLabel("Id", new Page.GetByLabelOptions().setExact(true)).fill("bite-3");
      press(two.page(), "Save");
      assertThat(two.page().getByRole(AriaRole.HEADING, heading("bite-3 saved"))).isVisible();
    }
    assertThat(rig.get("/treatments/" + id)).contains("bite-2", "bite-3", "bite-1");
  }
}
