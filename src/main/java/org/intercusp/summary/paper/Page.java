package org.intercusp.summary.paper;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.apache.commons.codec.digest.DigestUtils;
import org.intercusp.summary.content.Document;
import org.intercusp.summary.content.Panel;
import org.thymeleaf.context.Context;
import org.thymeleaf.spring6.SpringTemplateEngine;
import org.thymeleaf.templatemode.TemplateMode;
import org.thymeleaf.templateresolver.ClassLoaderTemplateResolver;

/**
 * Fills the templates. The page carries its style sheet and a policy that lets nothing run and
 * nothing load, so it can be kept as a file.
 */
public final class Page {

  private final SpringTemplateEngine engine = new SpringTemplateEngine();
  private final String screen = resource("screen.css");
  private final String paper = resource("paper.css");

  public Page() {
    ClassLoaderTemplateResolver templates =
        new ClassLoaderTemplateResolver(Page.class.getClassLoader());
    templates.setPrefix("summary/");
    templates.setSuffix(".xhtml");
    templates.setTemplateMode(TemplateMode.XML);
    templates.setCharacterEncoding(StandardCharsets.UTF_8.name());
    engine.setTemplateResolver(templates);
  }

  /** A page for a browser. */
  public String html(Document document) {
    return "<!DOCTYPE html>\n" + filled("document", document, screen);
  }

  /** Well-formed XHTML for {@link Paper}. */
  public String forPaper(Document document) {
    return filled("document", document, paper);
  }

  /** A {@code div} for a FHIR narrative: pictures in words, no element that XHTML 1.0 lacks. */
  public String narrative(Panel panel, Document document) {
    Context context =
        new Context(
            Locale.ROOT,
            Map.of(
                "panel",
                panel,
                "language",
                document.language(),
                "direction",
                document.direction()));
    return engine.process("narrative", context).strip();
  }

  private String filled(String template, Document document, String style) {
    Map<String, Object> values =
        Map.of(
            "document",
            document,
            "style",
            style,
            "policy",
            policy(style),
            "picturesInWords",
            false);
    return engine.process(template, new Context(Locale.ROOT, values)).strip();
  }

  public String contentSecurityPolicy() {
    return policy(screen) + "; frame-ancestors 'self'";
  }

  private static String policy(String style) {
    return "default-src 'none'; base-uri 'none'; form-action 'none'; style-src 'sha256-"
        + sha256(style)
        + "'";
  }

  private static String sha256(String text) {
    return Base64.getEncoder().encodeToString(DigestUtils.sha256(text));
  }

  private static String resource(String name) {
    try (InputStream in = Page.class.getResourceAsStream("/summary/" + name)) {
      return new String(Objects.requireNonNull(in, name).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
