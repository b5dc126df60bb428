package org.intercusp.exchange.proposal;

import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.sql.DataSource;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.audit.AuditTrail;
import org.intercusp.exchange.proposal.Comparing.Aside;
import org.intercusp.exchange.proposal.Comparing.Found;
import org.intercusp.exchange.proposal.Comparing.Part;
import org.intercusp.exchange.proposal.PollRows.Delivered;
import org.intercusp.exchange.queue.LedgerRows;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.records.Chart;
import org.intercusp.exchange.records.Deleted;
import org.intercusp.exchange.records.Ledger;
import org.intercusp.exchange.records.Ledger.Holder;
import org.intercusp.exchange.records.Likeness;
import org.intercusp.exchange.records.Survey;
import org.intercusp.exchange.records.Survivors.Followed;
import org.intercusp.exchange.wire.FhirServer;
import org.intercusp.exchange.wire.Token;
import org.intercusp.exchange.wire.Trouble;
import org.intercusp.fhir.BundleForm;
import org.intercusp.fhir.ReadBack;
import org.intercusp.fhir.Sightings;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.finding.Pointer;
import org.intercusp.treatment.Identifier;
import org.intercusp.treatment.TreatmentReader;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import tools.jackson.databind.JsonNode;

/** Looks at one treatment at one recipient and has proposed what is another there. */
final class Looking {

  private static final Pattern ENTRY = Pattern.compile("Bundle\\.entry\\[(\\d+)]");

  private final TreatmentArchive archive;
  private final TreatmentMapper mapper;
  private final Sightings sightings;
  private final LedgerRows ledgers;
  private final ProposalRows rows;
  private final Offering offering;
  private final TransactionTemplate transaction;
  private final TreatmentReader reader = new TreatmentReader();

  Looking(
      DataSource database,
      TreatmentArchive archive,
      TreatmentMapper mapper,
      AuditTrail trail,
      Clock clock) {
    this.archive = archive;
    this.mapper = mapper;
    this.sightings = new Sightings(mapper.canonicals());
    this.ledgers = new LedgerRows(database);
    this.rows = new ProposalRows(database, trail.callers());
    this.offering = new Offering(rows, trail, clock);
    this.transaction = new TransactionTemplate(new JdbcTransactionManager(database));
  }

  /** What to look at, and how. */
  record Look(
      Recipient recipient,
      FhirServer server,
      Survey survey,
      Delivered delivered,
      Followed patient,
      Token token) {}

  /** The identifier that the patient of a delivered version was sent under. */
  Token patient(Delivered delivered) {
    Identifier identifier =
        archive
            .version(delivered.key(), delivered.version())
            .orElseThrow()
            .read(reader)
            .patient()
            .identifier();
    return new Token(Token.IDENTIFIER, identifier.system(), identifier.value());
  }

  /**
   * Looks.
   *
   * @param tried versions after the delivered one that the recipient may hold something of
   */
  void look(Look look, Set<Integer> tried) throws Trouble {
    String name = look.recipient().name();
    Delivered delivered = look.delivered();
    Ledger ledger = ledgers.read(name, delivered.key());
    if (!ledger.kept()) {
      return;
    }
    Likeness likeness =
        new Likeness(look.server().text(), look.server().base(), look.patient().same());
    Chart chart = Chart.of(look.server(), look.survey(), ledger, look.patient(), sightings);
    transaction.executeWithoutResult(
        status -> {
          rows.hold(delivered.key());
          StoredTreatment newest = archive.current(delivered.key()).orElseThrow();
          StoredTreatment base =
              archive.version(delivered.key(), delivered.version()).orElseThrow();
          List<JsonNode> later = new ArrayList<>();
          for (int version : tried) {
            archive.version(delivered.key(), version).map(Looking::file).ifPresent(later::add);
          }
          Found found = new Comparing(mapper, chart, ledger, likeness).with(base(base), later);
          Offering.Subject subject =
              new Offering.Subject(name, delivered.key(), delivered.version(), file(newest));
          offering.offer(subject, together(look, found, chart, newest, likeness));
          offering.restored(subject, chart.deleted());
          offering.deleted(subject, chart.deleted());
          remember(look, subject);
        });
  }

  /** Whether something of the treatment was deleted there and nobody has decided on it. */
  boolean misses(Look look) throws Trouble {
    Ledger ledger = ledgers.read(look.recipient().name(), look.delivered().key());
    return Deleted.at(look.server(), ledger, look.patient()).stream()
        .anyMatch(line -> line.deletion() == Ledger.Deletion.UNDECIDED);
  }

  private Found together(
      Look look, Found found, Chart chart, StoredTreatment newest, Likeness likeness) {
    if (!found.faults().isEmpty()) {
      return found;
    }
    Additions additions =
        new Additions(look.recipient(), newest.read(reader), file(newest), likeness)
            .of(chart.strangers(), sightings);
    List<Part> parts = new ArrayList<>(found.parts());
    parts.addAll(additions.parts());
    List<Aside> beyond = new ArrayList<>(found.beyond());
    additions.beyond().forEach(one -> beyond.add(new Aside(one, null)));
    return new Found(parts, beyond, found.settled(), List.of());
  }

  private void remember(Look look, Offering.Subject subject) {
    Holder holder = look.patient().holder(look.token());
    if (holder == null) {
      return;
    }
    if (!Objects.equals(holder, ledgers.holder(subject.recipient(), subject.key()))) {
      ledgers.write(subject.recipient(), subject.key(), holder);
    }
    if (!holder.merged().isEmpty()) {
      offering.merged(subject, holder);
    }
  }

  private static JsonNode file(StoredTreatment stored) {
    return Placing.JSON.readTree(stored.bytes());
  }

  private Comparing.Base base(StoredTreatment stored) {
    // The day a document is dated by is in no resource of a collection.
    Bundle bundle =
        mapper.toBundle(stored.read(reader), LocalDate.EPOCH, List.of(), BundleForm.COLLECTION);
    ReadBack read = mapper.fromBundle(bundle);
    return new Comparing.Base(file(stored), pointer -> name(read, bundle, pointer));
  }

  private static Optional<Ledger.Name> name(ReadBack read, Bundle bundle, String pointer) {
    return read.expression(new Pointer(pointer))
        .map(ENTRY::matcher)
        .filter(Matcher::lookingAt)
        .map(place -> bundle.getEntry().get(Integer.parseInt(place.group(1))).getResource())
        .flatMap(Survey::own)
        .map(name -> new Ledger.Name(name.type(), name.token().system(), name.token().value()));
  }
}
