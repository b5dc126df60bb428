package org.intercusp.web.pages;

import java.util.List;
import java.util.stream.IntStream;
import org.intercusp.archive.Page;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.rules.Examination;
import org.intercusp.treatment.Treatment;
import org.intercusp.web.api.Intake;
import org.intercusp.web.api.Lookup;
import org.jspecify.annotations.Nullable;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;

/** The list of treatments and one treatment. */
@Controller
class TreatmentPages {

  /** Treatments on one page; common practice, no source. */
  private static final int LENGTH = 20;

  private final Intake intake;
  private final Lookup lookup;

  TreatmentPages(Intake intake, Lookup lookup) {
    this.intake = intake;
    this.lookup = lookup;
  }

  @GetMapping(path = "/", produces = MediaType.TEXT_HTML_VALUE)
  String home(@RequestParam @Nullable String after, Model model) {
    Page page = lookup.page(after, LENGTH);
    model.addAttribute("cards", page.treatments().stream().map(this::card).toList());
    model.addAttribute("total", page.total());
    model.addAttribute("next", Lookup.cursor(page));
    return "home";
  }

  @GetMapping(path = "/treatments/{id}", produces = MediaType.TEXT_HTML_VALUE)
  String treatment(@PathVariable String id, @RequestParam @Nullable String clinic, Model model) {
    StoredTreatment stored = lookup.current(id, clinic);
    Treatment treatment = intake.treatment(stored);
    Examination examination = intake.examine(treatment);
    model.addAttribute("card", Card.of(treatment, examination));
    model.addAttribute("figures", FigureView.of(examination));
    model.addAttribute("drawings", drawings(treatment));
    return "treatment";
  }

  private Card card(StoredTreatment stored) {
    Treatment treatment = intake.treatment(stored);
    return Card.of(treatment, intake.examine(treatment));
  }

  private static List<String> drawings(Treatment treatment) {
    return IntStream.range(0, treatment.bites().size())
        .mapToObj(index -> BitePicture.of(treatment, treatment.bites().get(index)))
        .toList();
  }
}
