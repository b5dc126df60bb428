package org.intercusp.exchange.proposal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Date;
import org.hl7.fhir.r4.model.Device;
import org.intercusp.archive.Databases;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.fhir.version.Release;
import org.junit.jupiter.api.Test;

/** A device alone is changed at a server of R5, which searches none by patient. */
class DevicePollTest extends PollingRig {

  @Override
  Release release() {
    return Release.R5;
  }

  @Test
  void isNoticedByTheIdsOfTheDevicesThatWereDelivered() {
    hospital.first(
        one -> one.path().endsWith("/Device") && one.query().contains("patient="),
        (one, real) -> Said.of(400, FaultyServer.FHIR, "{\"resourceType\":\"OperationOutcome\"}"));
    delivered(Databases.H2);
    assertThat(poll()).isEmpty();
    records.all().forEach(one -> one.getMeta().setLastUpdated(new Date(0)));
    assertThat(poll()).isEmpty();
    assertThat(open()).isEmpty();

    edit(Device.class, "", device -> device.addNote().setText("Broken at football"));
    int before = hospital.asked().size();
    assertThat(poll()).isEmpty();
    assertThat(only().content().beyond().get(0).path()).matches("Device/[0-9]+\\.note\\[0]");
    assertThat(hospital.asked().subList(before, hospital.asked().size()).stream())
        .anyMatch(one -> one.query().startsWith("_id="));
  }
}
