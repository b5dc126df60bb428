package org.intercusp.rules.appliance;

/** Whether a material holds a substance, as far as its words tell. */
enum Holds {
  YES,
  UNKNOWN,
  NO
}
