package org.intercusp.summary;

/** The form a document takes: one HTML page with everything in it, or tagged PDF/A on A4. */
public enum Form {
  HTML("html", "text/html;charset=UTF-8"),
  PDF("pdf", "application/pdf");

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
