package org.intercusp.fhir;

/** What the resources of a treatment are about, so that a document's sections can hold them. */
public enum DocumentGroup {
  DIAGNOSIS("Diagnosis"),
  BITES("Construction bites"),
  APPLIANCES("Appliances"),
  PLAN("Plan and stages"),
  REVIEWS("Reviews"),
  HARM("Harm"),
  OUTCOME("Outcome"),
  FINDINGS("Findings"),
  PEOPLE("People and consent");

  private final String title;

  DocumentGroup(String title) {
    this.title = title;
  }

  /** The title of a section that holds this group alone. */
  public String title() {
    return title;
  }
}
