package org.intercusp.treatment.sheet;

/** How a sheet writes decimals: a comma only where cells are parted by semicolons. */
enum DecimalSign {
  POINT,
  COMMA
}
