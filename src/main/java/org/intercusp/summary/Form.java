package org.intercusp.summary;

/**
 * The form a document takes: one HTML page with everything in it, tagged PDF/A on A4, or a FHIR
 * document.
 */
public enum Form {
  HTML("html", "text/html;charset=UTF-8"),
  PDF("pdf", "application/pdf"),
  FHIR("fhir", "application/fhir+json;charset=UTF-8");

  private final String code;
  private final String mediaType;

  Form(String code, String mediaType) {
    this.code = code;
    this.mediaType = mediaType;
  }

  public String code() {
    return code;
  }

  public String mediaType() {
    return mediaType;
  }
}
