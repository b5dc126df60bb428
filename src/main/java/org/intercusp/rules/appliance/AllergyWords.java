package org.intercusp.rules.appliance;

import java.util.Locale;
import java.util.regex.Pattern;

/**
 * What an allergy's text says beside acrylic and nickel, which the rules compare. Which words add
 * nothing to them is common knowledge of the trade, no source; any other may be an allergy of its
 * own.
 */
final class AllergyWords {

  private static final String COMPARED =
      "[\\p{L}-]*[ck]r[yií]l\\p{L}*|p?mma|methyl|resins?|monomers?|nickel\\p{L}*|ni|niti|nitinol"
          + "|ii|sul(?:ph|f)ate|chloride";

  private static final String ADDING_NOTHING =
      "(?:hyper)?sensiti\\p{L}*|allerg\\p{L}*|contact|dermatitis|eczema|skin|rash|reactions?"
          + "|known|suspected|confirmed|proven|mild|moderate|severe|patch|test(?:ed)?|positive"
          + "|since|dental|denture|base|plates?|metals?|alloys?|materials?|jewel\\p{L}*|earrings?"
          + "|to|of|in|on|from|by|the|a|an|and|or|\\d+";

  private static final Pattern NOTHING_MORE =
      Pattern.compile(
          "[^\\p{L}\\d]*(?:(?:%s|%s)(?![\\p{L}\\d])[^\\p{L}\\d]*)*"
              .formatted(COMPARED, ADDING_NOTHING));

  private AllergyWords() {}

  static boolean tellMore(String allergy) {
    return !NOTHING_MORE.matcher(allergy.toLowerCase(Locale.ROOT)).matches();
  }
}
