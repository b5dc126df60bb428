package org.intercusp.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.BaseRuntimeChildDefinition;
import ca.uhn.fhir.context.BaseRuntimeElementCompositeDefinition;
import ca.uhn.fhir.context.BaseRuntimeElementDefinition;
import ca.uhn.fhir.context.FhirContext;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LexiconTest {

  @Test
  void knowsEveryElementThatIsADecimalInTheModel() {
    FhirContext context = FhirContext.forR4Cached();
    Deque<BaseRuntimeElementDefinition<?>> open = new ArrayDeque<>(context.getElementDefinitions());
    context.getResourceTypes().forEach(type -> open.add(context.getResourceDefinition(type)));
    Set<Object> seen = new HashSet<>();
    Set<String> decimals = new HashSet<>();
    while (!open.isEmpty()) {
      BaseRuntimeElementDefinition<?> next = open.remove();
      if (seen.add(next) && next instanceof BaseRuntimeElementCompositeDefinition<?> composite) {
        for (BaseRuntimeChildDefinition child : composite.getChildren()) {
          child.getValidChildNames().stream()
              .filter(name -> !name.startsWith("modifierExtension"))
              .forEach(name -> visit(name, child.getChildByName(name), open, decimals));
        }
      }
    }
    assertThat(Lexicon.DECIMALS).isEqualTo(decimals);
  }

  private static void visit(
      String name,
      BaseRuntimeElementDefinition<?> element,
      Deque<BaseRuntimeElementDefinition<?>> open,
      Set<String> decimals) {
    open.add(element);
    if (element.getName().equals("decimal")) {
      decimals.add(name);
    }
  }

  @ParameterizedTest
  @CsvSource({
    "1, false",
    "1e40, false",
    "1e41, true",
    "1E-41, true",
    "1e+000040, false",
    "1e+000041, true",
    "1e, false",
    "1e+, false",
    "1e99999999999, true",
    "0e0, false"
  })
  void weighsTheExponentAsWritten(String number, boolean beyond) {
    assertThat(Lexicon.exponentBeyond(number, 40)).isEqualTo(beyond);
  }

  @ParameterizedTest
  @CsvSource({
    "1, true",
    "-1.5e+9, true",
    "1e1000000, true",
    "1 mm, false",
    "e5x, false",
    "12-3, false"
  })
  void tellsANumberFromOtherText(String text, boolean number) {
    assertThat(Lexicon.number(text)).isEqualTo(number);
  }
}
