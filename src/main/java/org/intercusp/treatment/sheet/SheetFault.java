package org.intercusp.treatment.sheet;

import org.intercusp.finding.Finding;

/**
 * Why a row, or the whole sheet, was refused.
 *
 * @param line the line the row starts on, from 1
 * @param column the column of the cell, from 1; 0 where it is about the row, or a cell that is not
 *     there
 * @param name the column's name; empty where it is about the row
 */
public record SheetFault(long line, int column, String name, Finding finding) {

  /** Where it is, in words. */
  public String place() {
    if (column > 0) {
      return "line " + line + ", column " + column + " (" + name + ")";
    }
    return name.isEmpty() ? "line " + line : "line " + line + " (" + name + ")";
  }
}
