package org.intercusp.web.pages.entry;

import jakarta.servlet.http.HttpServletResponse;
import java.util.List;
import java.util.Map;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.summary.content.NextVisit;
import org.intercusp.treatment.Treatment;
import org.intercusp.web.api.Intake;
import org.intercusp.web.api.Lookup;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.util.MultiValueMap;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.util.UriComponentsBuilder;

/**
 * The forms of a construction bite and a review. Everything is computed here: the script only asks
 * again while somebody types, and without it a button does.
 */
@Controller
class EntryPages {

  private static final String LIST = "{list:bites|reviews}";

  private final Entries entries;
  private final Intake intake;
  private final Lookup lookup;
  private final Ranges ranges = new Ranges();

  EntryPages(Entries entries, Intake intake, Lookup lookup) {
    this.entries = entries;
    this.intake = intake;
    this.lookup = lookup;
  }

  /** What a request is about. */
  private record About(String id, StoredTreatment stored, Treatment treatment, Sheet sheet) {}

  private About about(String id, @Nullable String clinic, String list) {
    StoredTreatment stored = lookup.current(id, clinic);
    Treatment treatment = intake.treatment(stored);
    return new About(id, stored, treatment, entries.sheet(list, treatment));
  }

  @GetMapping(path = "/treatments/{id}/" + LIST + "/new", produces = MediaType.TEXT_HTML_VALUE)
  String fresh(
      @PathVariable String id,
      @PathVariable String list,
      @RequestParam @Nullable String clinic,
      Model model) {
    About about = about(id, clinic, list);
    Typed typed = entries.proposed(about.sheet(), about.treatment());
    model.addAttribute("live", LiveView.empty());
    return form(model, about, about.stored().version(), typed, Map.of(), "");
  }

  /** Saves, works out, or adds or takes away a row, as the button that was pressed says. */
  @PostMapping("/pages/treatments/{id}/" + LIST)
  String pressed(
      @PathVariable String id,
      @PathVariable String list,
      @RequestParam @Nullable String clinic,
      @RequestParam MultiValueMap<String, String> parameters,
      Model model,
      HttpServletResponse response) {
    About about = about(id, clinic, list);
    Typed typed = Typed.of(parameters, about.sheet());
    int version = version(parameters);
    if (parameters.containsKey("save")) {
      return save(model, about, version, typed, response);
    }
    String cursor = "";
    for (Sheet.Group group : about.sheet().groups()) {
      String remove = parameters.getFirst("remove");
      if (group.list().equals(parameters.getFirst("add"))) {
        cursor = group.list() + "/" + typed.rows(group.list()) + "/" + group.fields().get(0).path();
        typed = typed.withRow(group);
      } else if (remove != null && remove.matches(group.list() + "/\\d{1,3}")) {
        typed = typed.withoutRow(group, Integer.parseInt(remove.replaceAll("\\D", "")));
      }
    }
    model.addAttribute("live", live(about, typed));
    return form(model, about, version, typed, Map.of(), cursor);
  }

  /** What follows from what has been typed, for the part of the page beside the fields. */
  @PostMapping("/pages/treatments/{id}/" + LIST + "/live")
  String live(
      @PathVariable String id,
      @PathVariable String list,
      @RequestParam @Nullable String clinic,
      @RequestParam MultiValueMap<String, String> parameters,
      Model model) {
    About about = about(id, clinic, list);
    model.addAttribute("live", live(about, Typed.of(parameters, about.sheet())));
    return "entry-live :: answer";
  }

  private LiveView live(About about, Typed typed) {
    return entries.live(about.sheet(), about.stored(), about.treatment(), typed);
  }

  private String save(
      Model model, About about, int version, Typed typed, HttpServletResponse response) {
    Entries.Saving saving =
        entries.save(about.sheet(), about.stored(), about.treatment(), version, typed);
    if (saving instanceof Entries.Saving.Saved) {
      return "redirect:"
          + UriComponentsBuilder.fromPath("/treatments/{id}/saved")
              .queryParam("entry", "{entry}")
              .queryParam("clinic", "{clinic}")
              .encode()
              .buildAndExpand(about.id(), typed.text("id"), clinic(about.stored()))
              .toUriString();
    }
    model.addAttribute("live", live(about, typed));
    if (saving instanceof Entries.Saving.Faulty faulty) {
      response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
      return form(model, about, version, typed.filled(about.sheet()), faulty.faults(), "");
    }
    response.setStatus(HttpStatus.CONFLICT.value());
    model.addAttribute("overtaken", true);
    return form(model, about, about.stored().version(), typed, Map.of(), "");
  }

  private String form(
      Model model,
      About about,
      int version,
      Typed typed,
      Map<String, String> faults,
      String cursor) {
    Sheet sheet = about.sheet();
    model.addAttribute("form", new FormView.Printer(sheet, typed, faults, ranges, cursor).print());
    model.addAttribute("heading", sheet.title());
    model.addAttribute("numbers", EntryText.NUMBERS);
    model.addAttribute("version", version);
    model.addAttribute("clinic", clinic(about.stored()));
    model.addAttribute("who", who(about.treatment()));
    model.addAttribute("id", about.id());
    model.addAttribute("list", sheet.list());
    model.addAttribute("asOf", about.treatment().asOf());
    model.addAttribute("scripted", true);
    model.addAttribute(
        "expected",
        sheet.list().equals("reviews")
            ? NextVisit.of(about.treatment(), intake.examine(about.treatment()))
            : List.of());
    return "entry";
  }

  static String who(Treatment treatment) {
    return treatment.id() + ", " + treatment.patient().name();
  }

  /** Whose treatment it is, as a path names it. */
  static String clinic(StoredTreatment stored) {
    return stored.key().reached().written();
  }

  private static int version(MultiValueMap<String, String> parameters) {
    String version = parameters.getFirst("version");
    return version != null && version.matches("\\d{1,9}") ? Integer.parseInt(version) : 0;
  }
}
