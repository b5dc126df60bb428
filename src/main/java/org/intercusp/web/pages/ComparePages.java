package org.intercusp.web.pages;

import java.util.List;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.web.api.Intake;
import org.intercusp.web.api.Lookup;
import org.jspecify.annotations.Nullable;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;

/** Two versions of a treatment beside one another. */
@Controller
class ComparePages {

  private final Intake intake;
  private final Lookup lookup;
  private final TreatmentArchive archive;

  ComparePages(Intake intake, Lookup lookup, TreatmentArchive archive) {
    this.intake = intake;
    this.lookup = lookup;
    this.archive = archive;
  }

  /** The last change where the address does not say which. */
  @GetMapping(path = "/treatments/{id}/compare", produces = MediaType.TEXT_HTML_VALUE)
  String compare(
      @PathVariable String id,
      @RequestParam @Nullable String clinic,
      @RequestParam @Nullable Integer from,
      @RequestParam @Nullable Integer to,
      Model model) {
    StoredTreatment newest = lookup.current(id, clinic);
    int later = to == null ? newest.version() : to;
    int earlier = from == null ? Math.max(1, later - 1) : from;
    StoredTreatment before = lookup.version(id, clinic, earlier);
    StoredTreatment after = lookup.version(id, clinic, later);
    List<Integer> versions =
        archive.history(newest.key()).stream().map(StoredTreatment::version).toList();
    model.addAttribute("comparison", Comparison.of(intake, before, after));
    model.addAttribute("versions", versions);
    model.addAttribute("clinic", clinic);
    model.addAttribute(
        "place", Place.of("treatments", newest.key().treatment()).with("clinic", clinic));
    return "compare";
  }
}
