package org.intercusp.summary;

import java.util.List;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;

/** How far to the right text reaches on any page, in points. */
final class Edge extends PDFTextStripper {

  private float right;

  @Override
  protected void writeString(String text, List<TextPosition> positions) {
    for (TextPosition each : positions) {
      right = Math.max(right, each.getXDirAdj() + each.getWidthDirAdj());
    }
  }

  float right() {
    return right;
  }
}
