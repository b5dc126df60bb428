package org.intercusp.web.pages.entry;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.List;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.Storing;
import org.intercusp.web.api.Intake;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.multipart.MultipartFile;
import org.springframework.web.util.UriComponentsBuilder;

/** A new treatment, handed in as a file. Its content is read as strictly as any other. */
@Controller
class UploadPages {

  private final Intake intake;

  UploadPages(Intake intake) {
    this.intake = intake;
  }

  /** A fault of the file. */
  public record Fault(String pointer, String code, String message, String remedy) {}

  @GetMapping(path = "/pages/treatments/new", produces = MediaType.TEXT_HTML_VALUE)
  String choose(Model model) {
    return page(model, List.of(), "");
  }

  @PostMapping("/pages/treatments")
  String take(@RequestParam MultipartFile file, Model model, HttpServletResponse response)
      throws IOException {
    if (file.isEmpty()) {
      response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
      return page(model, List.of(), "Choose a file first; nothing was kept.");
    }
    Intake.Taken taken = intake.store(file.getBytes(), List.of());
    if (taken instanceof Intake.Taken.Unreadable unreadable) {
      response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
      List<Fault> faults =
          unreadable.faults().stream()
              .map(
                  fault ->
                      new Fault(
                          fault.pointer().text(), fault.code(), fault.message(), fault.remedy()))
              .toList();
      return page(model, faults, "The file cannot be read; nothing was kept.");
    }
    Storing storing = ((Intake.Taken.Filed) taken).storing();
    if (storing instanceof Storing.Stored stored) {
      return "redirect:" + place(stored.version());
    }
    response.setStatus(HttpStatus.CONFLICT.value());
    return page(
        model,
        List.of(),
        storing instanceof Storing.Erased
            ? "A treatment with this id was erased; the id is not used again."
            : "A treatment with this id is there already; nothing was kept. Record reviews and bites on"
            + " its own page.");
  }

  private static String page(Model model, List<Fault> faults, String words) {
    model.addAttribute("faults", faults);
    model.addAttribute("words", words);
    model.addAttribute("scripted", true);
    return "upload";
  }

  private static String place(StoredTreatment stored) {
    return UriComponentsBuilder.fromPath("/treatments/{id}")
        .queryParam("clinic", "{clinic}")
        .encode()
        .buildAndExpand(stored.key().treatment(), EntryPages.clinic(stored))
        .toUriString();
  }
}
