package org.intercusp.summary.drawing;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Font;
import java.awt.font.FontRenderContext;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.intercusp.rules.Examiner;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.w3c.dom.Element;

/** No word of a drawing is cut off at its edge, by the true width of the letters. */
class LettersFitTest {

  private static final FontRenderContext PLAIN = new FontRenderContext(null, true, true);

  static Stream<Path> samples() throws Exception {
    try (Stream<Path> all = Files.list(Path.of("sample-bundles"))) {
      return all
          .filter(each -> each.toString().endsWith(".treatment.json"))
          .sorted()
          .toList()
          .stream();
    }
  }

  @ParameterizedTest
  @MethodSource("samples")
  void everyWordEndsBeforeTheEdge(Path sample) throws Exception {
    Treatment treatment =
        ((ReadResult.Accepted) new TreatmentReader().read(Files.readAllBytes(sample))).treatment();
    List<String> cut = new ArrayList<>();
    for (String svg : drawings(treatment)) {
      Drawn drawn = new Drawn(svg);
      String[] box = drawn.attribute("viewBox").split(" ");
      double left = Double.parseDouble(box[0]);
      double right = left + Double.parseDouble(box[2]);
      for (Element each : drawn.elements()) {
        if (each.getTagName().equals("text")) {
          double width = width(each);
          double start = start(each, width);
          if (start < left - 0.01 || start + width > right + 0.01) {
            cut.add(each.getTextContent());
          }
        }
      }
    }
    assertThat(cut).isEmpty();
  }

  private static List<String> drawings(Treatment treatment) {
    List<String> all = new ArrayList<>();
    var figures = new Examiner().examine(treatment, treatment.asOf()).figures();
    treatment
        .appliances()
        .forEach(
            each -> {
              all.add(TeethChart.svg(treatment.diagnosis().teethPresent(), each));
              BlockView.of(treatment, each, figures)
                  .ifPresent(view -> all.add(BlockDrawing.svg(view)));
            });
    StageLine.svg(treatment, treatment.asOf()).ifPresent(all::add);
    OverjetChart.svg(treatment, treatment.asOf()).ifPresent(all::add);
    return all;
  }

  private static double start(Element each, double width) {
    double x = Double.parseDouble(each.getAttribute("x"));
    return switch (each.getAttribute("text-anchor")) {
      case "middle" -> x - width / 2;
      case "end" -> x - width;
      default -> x;
    };
  }

  private static double width(Element each) throws Exception {
    double size = Double.parseDouble(each.getAttribute("font-size"));
    return size / 100 * Held.FONT.getStringBounds(each.getTextContent(), PLAIN).getWidth();
  }

  /** The widest of the usual sans serifs, 100 high. */
  private static final class Held {
    private static final Font FONT = read();

    private static Font read() {
      try (InputStream in =
          LettersFitTest.class.getResourceAsStream(
              "/net/sf/jasperreports/fonts/dejavu/DejaVuSans.ttf")) {
        return Font.createFont(Font.TRUETYPE_FONT, in).deriveFont(100f);
      } catch (Exception e) {
        throw new IllegalStateException(e);
      }
    }
  }
}
