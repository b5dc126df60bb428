package org.intercusp.rules.figure;

import java.util.ArrayList;
import java.util.List;
import org.intercusp.analysis.film.FilmFigures;
import org.intercusp.analysis.growth.VertebralStage;
import org.intercusp.analysis.index.IndexFigures;
import org.intercusp.analysis.model.ModelFigures;
import org.intercusp.finding.Figure;
import org.intercusp.rules.rule.Case;

/** All figures of a treatment, in the order of the file. */
public final class TreatmentFigures {

  private TreatmentFigures() {}

  public static List<Figure> of(Case about) {
    List<Figure> figures = new ArrayList<>(PatientFigures.of(about));
    about.treatment().bites().forEach(bite -> figures.addAll(BiteFigures.of(about, bite)));
    about
        .treatment()
        .appliances()
        .forEach(appliance -> figures.addAll(ApplianceFigures.of(about, appliance)));
    figures.addAll(StageFigures.of(about.treatment()));
    figures.addAll(ProgressFigures.of(about));
    figures.addAll(NextVisitFigures.of(about));
    figures.addAll(FilmFigures.figures(about.treatment().films()));
    about.treatment().films().stream()
        .filter(film -> film.vertebrae() != null)
        .forEach(film -> figures.addAll(VertebralStage.figures(film)));
    about.treatment().models().forEach(model -> figures.addAll(ModelFigures.figures(model)));
    figures.addAll(IndexFigures.figures(about.treatment().outcomes()));
    return List.copyOf(figures);
  }
}
