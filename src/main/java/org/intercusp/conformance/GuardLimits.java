package org.intercusp.conformance;

/**
 * What the guard lets through. The values of {@link #DEFAULT} are ours, with no source: a treatment
 * of two years with all its reviews makes about 300 resources and half a megabyte, and every limit
 * leaves it room while the worst document within the limits still costs milliseconds.
 *
 * @param bytes size of a document
 * @param depth nested objects and arrays, or elements
 * @param tokens values, names and brackets in a document
 * @param textLength characters of one value
 * @param nameLength characters of one member or element name
 * @param numberLength characters of one number
 * @param exponent largest power of ten of a number, either sign
 * @param items elements of one list
 * @param members members of one object, or children of an element by different names: the library
 *     compares each with every other. ActivityDefinition, the widest in the definitions of R4
 *     (4.0.1), has 54 elements and 80 members with those of its primitives' extensions
 * @param entries entries of one Bundle
 * @param resources resources in a document: entries, contained, parameters
 * @param contained resources contained in one resource
 * @param chain entries that follow one another by reference
 * @param profiles profiles one resource may claim
 * @param narrativeDepth nested elements of one narrative
 */
public record GuardLimits(
    int bytes,
    int depth,
    int tokens,
    int textLength,
    int nameLength,
    int numberLength,
    int exponent,
    int items,
    int members,
    int entries,
    int resources,
    int contained,
    int chain,
    int profiles,
    int narrativeDepth) {

  public static final GuardLimits DEFAULT =
      new GuardLimits(
          4 * 1024 * 1024,
          64,
          250_000,
          256 * 1024,
          128,
          40,
          40,
          4_000,
          200,
          1_000,
          1_500,
          64,
          128,
          16,
          24);
}
