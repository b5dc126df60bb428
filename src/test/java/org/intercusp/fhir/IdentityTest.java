package org.intercusp.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.UUID;
import org.intercusp.treatment.Identifier;
import org.junit.jupiter.api.Test;

class IdentityTest {

  private static final Identifier CLINIC = new Identifier("https://harbour-lane.example", "HL-1");
  private final Identity identity = Identity.of(CLINIC, "T1");

  @Test
  void aNameSaysTreatmentRoleAndElement() {
    assertThat(identity.identifier(Role.BITE, "B1").value()).isEqualTo("T1/bite/B1");
    assertThat(identity.identifier(Role.TRIM, "R1", "2").value()).isEqualTo("T1/trim/R1/2");
  }

  @Test
  void aNameCanBeTakenApartWhateverTheIdsHold() {
    String odd = "a/b|c,d$e\\f~g h\u00e9";
    Identity other = Identity.of(CLINIC, "T/1~");
    Identifier named = other.identifier(Role.BITE, odd);
    Identity.Name name = Identity.parse(named.system(), named.value()).orElseThrow();
    assertThat(name.identity()).isEqualTo(other);
    assertThat(name.role()).isEqualTo(Role.BITE);
    assertThat(name.elements()).containsExactly(odd);
    assertThat(named.value()).doesNotContain("|", ",", "$", "\\", " ");
  }

  @Test
  void anIdWithASlashIsNotTwoIds() {
    assertThat(identity.identifier(Role.BITE, "a/b"))
        .isNotEqualTo(identity.identifier(Role.BITE, "a", "b"));
  }

  @Test
  void aSystemAndValueAreNotRunTogether() {
    Identifier one = new Identifier("https://a.example/x", "y");
    Identifier two = new Identifier("https://a.example/", "xy");
    assertThat(Identity.of(one, "T1")).isNotEqualTo(Identity.of(two, "T1"));
    assertThat(Identity.urn("Patient", one)).isNotEqualTo(Identity.urn("Patient", two));
  }

  @Test
  void aUrnIsANameBasedUuid() {
    UUID uuid = UUID.fromString(Identity.urn("Patient", CLINIC).substring("urn:uuid:".length()));
    assertThat(uuid.version()).isEqualTo(5);
    assertThat(uuid.variant()).isEqualTo(2);
    assertThat(Identity.urn("Patient", CLINIC)).isEqualTo(Identity.urn("Patient", CLINIC));
    assertThat(Identity.urn("Patient", CLINIC)).isNotEqualTo(Identity.urn("Organization", CLINIC));
  }

  @Test
  void aSearchEscapesWhatSearchGivesAMeaning() {
    assertThat(Identity.search("identifier", new Identifier("https://a.example", "S|7,$\\")))
        .isEqualTo("identifier=https%3A%2F%2Fa.example%7CS%5C%7C7%5C%2C%5C%24%5C%5C");
  }

  @Test
  void anotherSystemsIdentifierIsNotOurs() {
    assertThat(Identity.parse("https://elsewhere.example", "T1/bite/B1")).isEmpty();
    assertThat(Identity.parse(identity.system(), "T1/unheard-of/B1")).isEmpty();
    assertThat(Identity.parse(identity.system(), "T1")).isEmpty();
  }
}
