package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import org.intercusp.analysis.film.Measurement;
import org.intercusp.analysis.film.Norm;
import org.intercusp.finding.SourceClass;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The Eastman norms as recalled: values from memory, not read again. Exact, they are a table. */
class EastmanNormsFromMemoryTest {

  @ParameterizedTest
  @CsvSource({
    "SNA, 81, 3",
    "SNB, 78, 3",
    "ANB, 3, 2",
    "SN_MX, 8, 3",
    "MMPA, 27, 4",
    "U1_MX, 109, 6",
    "L1_MD, 93, 6",
    "INTERINCISAL, 135, 10",
    "LAFH_PERCENT, 55, 2"
  })
  void theTable(Measurement measurement, BigDecimal mean, BigDecimal deviation) {
    assertThat(measurement.norm()).contains(new Norm(mean, deviation));
    assertThat(measurement.source().kind()).isEqualTo(SourceClass.MEMORY);
  }

  @Test
  void theMeansDoNotCloseSoNoneIsDerivedFromTheOthers() {
    int sum = mean(Measurement.U1_MX) + mean(Measurement.L1_MD);
    sum += mean(Measurement.INTERINCISAL) + mean(Measurement.MMPA);
    assertThat(sum).isEqualTo(364);
  }

  @Test
  void aLimitItselfIsUsual() {
    Norm lowerIncisors = Measurement.L1_MD.norm().orElseThrow();
    assertThat(lowerIncisors.exceededBy(new BigDecimal("99.0"))).isFalse();
    assertThat(lowerIncisors.exceededBy(new BigDecimal("99.1"))).isTrue();
    assertThat(lowerIncisors.covers(new BigDecimal("87"))).isTrue();
    assertThat(lowerIncisors.covers(new BigDecimal("86.9"))).isFalse();
  }

  private static int mean(Measurement measurement) {
    return measurement.norm().orElseThrow().mean().intValueExact();
  }
}
