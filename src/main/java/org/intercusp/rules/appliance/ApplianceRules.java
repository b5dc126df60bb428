package org.intercusp.rules.appliance;

import java.util.List;
import org.intercusp.rules.rule.Rule;

/** The rules of this room, in the order of the catalogue. */
public final class ApplianceRules {

  private ApplianceRules() {}

  public static List<Rule> all() {
    return List.of(
        new ApplianceInclineRange(),
        new ApplianceInclineUnusual(),
        new ApplianceBlockExtent(),
        new ApplianceBlockHeight(),
        new ApplianceClaspTooth(),
        new ApplianceBlockTooth(),
        new ApplianceClaspDeciduous(),
        new ApplianceRetention(),
        new ApplianceWire(),
        new ApplianceCapping(),
        new ApplianceAllergy());
  }
}
