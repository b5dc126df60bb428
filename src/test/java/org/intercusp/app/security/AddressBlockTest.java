package org.intercusp.app.security;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Addresses of the documentation blocks: RFC 3849 and RFC 5737. */
class AddressBlockTest {

  @ParameterizedTest
  @CsvSource({
    "2001:db8:1:2::1, 2001:db8:1:2:ffff:ffff:ffff:ffff",
    "2001:db8:1:2::1, 2001:0DB8:0001:0002:0000:0000:0000:0009",
    "2001:db8:1:2::1, 2001:db8:1:2:3:4:192.0.2.7",
    "fe80::1%eth0, fe80::2%2",
    "[2001:db8::1], 2001:db8::2",
    "::ffff:192.0.2.7, 192.0.2.7",
    "::ffff:c000:207, 192.0.2.7",
  })
  void oneOwnersAddressesAreOne(String one, String other) {
    assertThat(AddressBlock.of(one)).isEqualTo(AddressBlock.of(other));
  }

  @ParameterizedTest
  @CsvSource({
    "2001:db8:1:2::1, 2001:db8:1:3::1",
    "192.0.2.7, 192.0.2.8",
    "::ffff:192.0.2.7, ::ffff:192.0.2.8",
    "unknown, unknowable",
    "clinic.example, hospital.example",
    "x:1, x:2",
    "1:2:3, 1:2:4",
    ":::, ::::",
  })
  void othersAreNot(String one, String other) {
    assertThat(AddressBlock.of(one)).isNotEqualTo(AddressBlock.of(other));
  }
}
