package org.intercusp.web.browser;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.util.Map;

/** What people do in a form, step by step. */
final class FormSteps {

  private FormSteps() {}

  static void bite(Page page, String registered) {
    fill(
        page,
        Map.of("habitualReading", "0", "registeredReading", registered, "maximumReading", "13"));
    fill(page, Map.of("overjetHabitual", "9", "overbiteHabitual", "4"));
    fill(page, Map.of("overjetInBite", "0.5", "incisalClearance", "2"));
    fill(page, Map.of("upperIncisorHeight", "9.5", "lowerIncisorHeight", "8"));
  }

  static void fill(Page page, Map<String, String> values) {
    values.forEach((name, value) -> page.locator("[name='" + name + "']").fill(value));
  }

  static void press(Page page, String button) {
    page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName(button).setExact(true))
        .click();
  }

  static Page.GetByRoleOptions heading(String words) {
    return new Page.GetByRoleOptions().setName(words);
  }

  static Page.GetByRoleOptions group(String name) {
    return new Page.GetByRoleOptions().setName(name).setExact(true);
  }
}
