package org.intercusp.house;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.domain.Dependency;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import java.util.Arrays;
import java.util.Optional;
import java.util.function.BiFunction;
import org.jspecify.annotations.NullMarked;

/**
 * The checks on compiled classes below one root package. The root is a parameter so that the same
 * rules judge the product and the planted violations.
 */
final class HouseRules {

  private final RoomTable table = new RoomTable();
  private final String root;

  HouseRules(String root) {
    this.root = root;
  }

  ArchRule everyPackageIsInTheTable() {
    return rule(
        "be in a room of the table",
        (room, type) ->
            table.roomOf(room).isEmpty()
                ? Optional.of(type.getName() + " is in no room of the table")
                : Optional.empty());
  }

  ArchRule roomsUseOnlyWhatTheTableAllows() {
    return dependencies(
        "use only the rooms the table allows",
        (own, dependency) -> {
          Optional<String> target = below(dependency.getTargetClass());
          Optional<String> room = target.flatMap(table::roomOf);
          Optional<String> from = table.roomOf(own);
          return from.isPresent()
              && room.isPresent()
              && !table.mayUse(from.orElseThrow(), room.orElseThrow());
        });
  }

  ArchRule noCycles() {
    return slices().matching(root + ".(**)").should().beFreeOfCycles().allowEmptyShould(true);
  }

  ArchRule noSpringBelow() {
    return dependencies(
        "keep Spring out of the lower rooms",
        (own, dependency) ->
            table.roomOf(own).filter(RoomTable.WITHOUT_SPRING::contains).isPresent()
                && startsWith(dependency, "org.springframework."));
  }

  ArchRule hapiOnlyWhereNamed() {
    return dependencies(
        "keep HAPI types in the rooms named for it",
        (own, dependency) ->
            table.roomOf(own).filter(RoomTable.WITH_HAPI::contains).isEmpty()
                && (startsWith(dependency, "ca.uhn.") || startsWith(dependency, "org.hl7.")));
  }

  ArchRule noForbiddenNames() {
    return rule(
        "have no package named for nothing",
        (own, type) ->
            !own.equals(RoomTable.DENTAL_MODELS)
                    && Arrays.stream(own.split("\\.", -1))
                        .anyMatch(RoomTable.FORBIDDEN_NAMES::contains)
                ? Optional.of(type.getName() + " is in a package with a forbidden name")
                : Optional.empty());
  }

  ArchRule everyPackageIsNullMarked() {
    return rule(
        "be in a package marked @NullMarked",
        (own, type) ->
            type.getPackage().isAnnotatedWith(NullMarked.class)
                ? Optional.empty()
                : Optional.of(type.getPackageName() + " is not @NullMarked"));
  }

  ArchRule noLombok() {
    return dependencies(
        "do without Lombok", (own, dependency) -> startsWith(dependency, "lombok."));
  }

  private Optional<String> below(JavaClass type) {
    String name = type.getPackageName();
    return name.startsWith(root + ".")
        ? Optional.of(name.substring(root.length() + 1))
        : Optional.empty();
  }

  private static boolean startsWith(Dependency dependency, String prefix) {
    return dependency.getTargetClass().getBaseComponentType().getName().startsWith(prefix);
  }

  private ArchRule dependencies(String text, DependencyCheck forbidden) {
    return condition(
        text,
        (own, type, events) ->
            type.getDirectDependenciesFromSelf().stream()
                .filter(dependency -> forbidden.test(own, dependency))
                .forEach(
                    dependency ->
                        events.add(
                            SimpleConditionEvent.violated(type, dependency.getDescription()))));
  }

  private ArchRule rule(String text, BiFunction<String, JavaClass, Optional<String>> fault) {
    return condition(
        text,
        (own, type, events) ->
            fault
                .apply(own, type)
                .ifPresent(said -> events.add(SimpleConditionEvent.violated(type, said))));
  }

  private ArchRule condition(String text, ClassCheck check) {
    return classes()
        .that()
        .resideInAPackage(root + "..")
        .should(
            new ArchCondition<JavaClass>(text) {
              @Override
              public void check(JavaClass type, ConditionEvents events) {
                check.accept(below(type).orElse(""), type, events);
              }
            })
        .allowEmptyShould(true);
  }

  @FunctionalInterface
  private interface DependencyCheck {
    boolean test(String own, Dependency dependency);
  }

  @FunctionalInterface
  private interface ClassCheck {
    void accept(String own, JavaClass type, ConditionEvents events);
  }
}
