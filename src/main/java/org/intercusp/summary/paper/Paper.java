package org.intercusp.summary.paper;

import com.openhtmltopdf.bidi.support.ICUBidiReorderer;
import com.openhtmltopdf.bidi.support.ICUBidiSplitter;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.outputdevice.helper.ExternalResourceControlPriority;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder.PdfAConformance;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer;
import com.openhtmltopdf.util.XRLog;
import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.Objects;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/**
 * Sets XHTML on A4 as tagged PDF/A-2a (ISO 19005-2) and PDF/UA-1. The fonts are embedded, the
 * colour space is the sRGB of the Java platform, and nothing is loaded from outside.
 */
public final class Paper {

  private static final String FAMILY = "DejaVu Sans Condensed";
  private static final String FONTS = "/net/sf/jasperreports/fonts/dejavu/";

  private static final String REGULAR = "DejaVuSansCondensed.ttf";
  private static final String SVG = "http://www.w3.org/2000/svg";

  static {
    // The renderer's own log would repeat what stands in a record.
    XRLog.setLoggingEnabled(false);
  }

  private final CmapLookup letters = letters();
  private final byte[] colours = ICC_Profile.getInstance(ColorSpace.CS_sRGB).getData();

  public byte[] pdf(String xhtml) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try {
      PdfRendererBuilder builder = new PdfRendererBuilder();
      builder.useFastMode();
      builder.usePdfUaAccessibility(true);
      builder.usePdfAConformance(PdfAConformance.PDFA_2_A);
      builder.useColorProfile(colours);
      builder.withProducer("Intercusp");
      font(builder, REGULAR, 400, FontStyle.NORMAL);
      font(builder, "DejaVuSansCondensed-Bold.ttf", 700, FontStyle.NORMAL);
      builder.useUnicodeBidiSplitter(new ICUBidiSplitter.ICUBidiSplitterFactory());
      builder.useUnicodeBidiReorderer(new ICUBidiReorderer());
      closed(builder);
      builder.withW3cDocument(parsed(xhtml), null);
      builder.toStream(out);
      try (BatikSVGDrawer drawings = new BatikSVGDrawer()) {
        builder.useSVGDrawer(drawings);
        builder.run();
      }
    } catch (IOException e) {
      throw new UncheckedIOException("a document in memory cannot fail", e);
    }
    return out.toByteArray();
  }

  /** Whether the font has every letter of a text; one it lacks is printed as {@code #}. */
  public boolean prints(String text) {
    return text.codePoints()
        .allMatch(
            letter ->
                Character.isWhitespace(letter)
                    || Character.getType(letter) == Character.FORMAT
                    || letters.getGlyphId(letter) != 0);
  }

  private static CmapLookup letters() {
    try (InputStream in = resource(FONTS + REGULAR);
        TrueTypeFont font = new TTFParser().parse(new RandomAccessReadBuffer(in))) {
      return font.getUnicodeCmapLookup();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void font(PdfRendererBuilder builder, String file, int weight, FontStyle style) {
    builder.useFont(() -> resource(FONTS + file), FAMILY, weight, style, true);
  }

  private static InputStream resource(String path) {
    return Objects.requireNonNull(Paper.class.getResourceAsStream(path), path);
  }

  /** Every address is refused, before and after it is resolved. */
  private static void closed(PdfRendererBuilder builder) {
    builder.useUriResolver((base, uri) -> null);
    for (ExternalResourceControlPriority each : ExternalResourceControlPriority.values()) {
      builder.useExternalResourceAccessControl((uri, type) -> false, each);
    }
  }

  private static Document parsed(String xhtml) throws IOException {
    try {
      DocumentBuilderFactory factory = DocumentBuilderFactory.newDefaultInstance();
      factory.setNamespaceAware(true);
      factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
      factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
      return described(
          factory.newDocumentBuilder().parse(new InputSource(new StringReader(xhtml))));
    } catch (ParserConfigurationException | SAXException e) {
      throw new IllegalStateException("the templates are well-formed", e);
    }
  }

  /** The renderer takes the words for a picture from an attribute that SVG itself has not. */
  private static Document described(Document document) {
    NodeList drawings = document.getElementsByTagNameNS(SVG, "svg");
    for (int i = 0; i < drawings.getLength(); i++) {
      Element drawing = (Element) drawings.item(i);
      drawing.setAttribute(
          "alt", drawing.getElementsByTagNameNS(SVG, "desc").item(0).getTextContent());
    }
    return document;
  }
}
