package org.intercusp.conformance;

import static java.nio.charset.StandardCharsets.UTF_8;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.fhir.BundleForm;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.fhir.TreatmentText;
import org.intercusp.finding.Finding;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.Judged;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * What is done to a Bundle of 25 entries, beside reading and writing the same JSON as a tree: an
 * invented treatment with its diagnosis, one bite and the findings of it.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 4, time = 2)
@Measurement(iterations = 5, time = 2)
public class BundleCost {

  private static final JsonMapper JSON = JsonMapper.shared();
  private static final int ENTRIES = 25;

  private final FhirContext context = FhirContext.forR4();
  private final TreatmentMapper mapper = new TreatmentMapper(Canonicals.RESERVED);
  private final TreatmentText text = new TreatmentText(context, mapper);
  private final Examiner examiner = new Examiner();

  private Treatment treatment;
  private LocalDate on;
  private List<Finding> findings;
  private byte[] bytes;
  private String document;
  private JsonNode tree;
  private Bundle bundle;
  private Guard guard;
  private GeneralValidator general;
  private TradeRules trade;
  private Conformance conformance;

  /** Maps the treatment once and warms the validator. */
  @Setup
  public void set() throws IOException {
    treatment = small();
    on = Objects.requireNonNull(treatment.asOf());
    Examination examination = examiner.examine(treatment, on);
    findings = examination.findings().stream().map(Judged::finding).toList();
    bundle = mapper.toBundle(treatment, on, findings, BundleForm.COLLECTION);
    if (bundle.getEntry().size() != ENTRIES) {
      throw new IllegalStateException("a Bundle of " + bundle.getEntry().size() + " entries");
    }
    bytes = context.newJsonParser().encodeResourceToString(bundle).getBytes(UTF_8);
    document = new String(bytes, UTF_8);
    tree = JSON.readTree(bytes);
    guard = new Guard(GuardLimits.DEFAULT);
    DefaultProfileValidationSupport base = new DefaultProfileValidationSupport(context);
    ProfilesPackage profiles = ProfilesPackage.load(context, base, Canonicals.RESERVED);
    general = new GeneralValidator(context, base, profiles, new Fragments(context));
    trade = new TradeRules(mapper, examiner, Clock.systemUTC());
    conformance = new Conformance(context, GuardLimits.DEFAULT, Clock.systemUTC());
  }

  private static Treatment small() throws IOException {
    ObjectNode file =
        (ObjectNode)
            JSON.readTree(
                Files.readAllBytes(Path.of("sample-bundles/unsafe-bite-refused.treatment.json")));
    List.of("laboratory", "referrer").forEach(file::remove);
    List.of("stages", "appliances", "reviews").forEach(file::putArray);
    ReadResult read = new TreatmentReader().read(JSON.writeValueAsBytes(file));
    return ((ReadResult.Accepted) read).treatment();
  }

  @Benchmark
  public JsonNode treeRead() {
    return JSON.readTree(bytes);
  }

  @Benchmark
  public byte[] treeWrite() {
    return JSON.writeValueAsBytes(tree);
  }

  @Benchmark
  public byte[] mapToBytes() {
    return text.write(treatment, on, findings, BundleForm.COLLECTION, TreatmentText.Format.JSON);
  }

  @Benchmark
  public Object parse() {
    return context.newJsonParser().parseResource(document);
  }

  @Benchmark
  public Admission guard() {
    return guard.admit(bytes, Format.JSON);
  }

  @Benchmark
  public Examination rules() {
    return examiner.examine(treatment, on);
  }

  @Benchmark
  public List<Issue> rulesReadBackFromFhir() {
    return trade.judge(bundle);
  }

  @Benchmark
  public List<Issue> generalValidation() {
    return general.validate(document, bundle, Set.of());
  }

  @Benchmark
  public List<Issue> wholeJudgement() {
    return conformance.validate(bytes, Format.JSON);
  }
}
