#include "render/commands/solve/answer_columns.h"

#include <cstddef>

#include "render/words/finding_figures.h"
#include "render/words/finding_sentence.h"

namespace leat::render {

namespace {

Columns<PlaceRow> place_level_columns() {
  using Place = Column<PlaceRow>;
  return {
      Place::value("name", [](const PlaceRow& row) { return row.place.name; }),
      Place::value(
          "kind",
          [](const PlaceRow& row) { return model::kind_word(row.place); },
          "spring, creek, pond, tank, trough, outlet or tee"),
      Place::number("elevation_m",
                    scale::level,
                    in_answer(&solver::PlaceAnswer::elevation_m),
                    "overflow, surface, tank floor, float level, outlet level, tee"),
      Place::number(
          "head_m",
          scale::level,
          in_answer(&solver::PlaceAnswer::head_m),
          "energy head at the place. A trough's or outlet's is that in front of its valve, the "
          "exit "
          "loss not yet taken; a spring's is that at the pipe's mouth, below the box where the "
          "line "
          "runs part full. Null where no way joins the place to open water"),
      Place::number("level_m",
                    scale::level,
                    in_answer(&solver::PlaceAnswer::level_m),
                    "water level of a spring box, creek, pond or tank"),
      Place::number("pressure_kPa",
                    scale::pressure,
                    in_answer(&solver::PlaceAnswer::pressure_Pa),
                    "gauge, from head less elevation; null for open water"),
  };
}

Columns<PlaceRow> place_water_columns() {
  using Place = Column<PlaceRow>;
  return {
      Place::number(
          "delivered_L_s",
          scale::flow,
          in_answer(&solver::PlaceAnswer::delivered_m3_s),
          "what the pipes hand to the place; negative where the place feeds them; 0 for tees"),
      Place::number("need_L_s", scale::flow, in_answer(&solver::PlaceAnswer::need_m3_s)),
      Place::number("met",
                    scale::share,
                    in_answer(&solver::PlaceAnswer::met),
                    "what is needed or wished; delivered over that, at most 1"),
      Place::number(
          "spill_L_s", scale::flow, in_answer(&solver::PlaceAnswer::spill_m3_s), "what runs over"),
      Place::value(
          "state",
          [](const PlaceRow& row) { return solver::word_of(row.answer.state); },
          "the first that applies: below vapour, near vapour, breaks, dry (met < 0.005, or cut "
          "off), "
          "starved (met < 0.995), drawn down, suction (a tee below -0.1 kPa), spilling, ok"),
      Place::number("has_to_give_L_s",
                    scale::flow,
                    in_answer(&solver::PlaceAnswer::has_to_give_m3_s),
                    "what a spring yields, what may be taken from a creek; null for all else")
          .only_in_json(),
      Place::number("stands_m3", scale::volume, in_answer(&solver::PlaceAnswer::stands_m3))
          .only_in_json(),
      Place::number(
          "lasts_h",
          scale::seconds_as_hours,
          in_answer(&solver::PlaceAnswer::lasts_s),
          "of a tank that gives more than comes in: what stands above its lowest mouth, null where "
          "its area is not known; how long that lasts, 0 where it cannot. Null for all else")
          .only_in_json(),
  };
}

Columns<solver::SummitAnswer> made_summit_columns() {
  using Summit = Column<solver::SummitAnswer>;
  return {
      Summit::number("at_m", scale::length, &solver::SummitAnswer::at_m),
      Summit::number("elevation_m", scale::level, &solver::SummitAnswer::elevation_m),
      Summit::number("absolute_head_m",
                     scale::level,
                     &solver::SummitAnswer::absolute_head_m,
                     "velocity head taken off"),
      Summit::number(
          "margin_m", scale::level, &solver::SummitAnswer::margin_m, "that less the vapour head"),
      Summit::value("parted", &solver::SummitAnswer::parted),
  };
}

Columns<PipeRow> pipe_flow_columns() {
  using Pipe = Column<PipeRow>;
  return {
      Pipe::value("name", [](const PipeRow& row) { return row.pipe.name; }),
      Pipe::value("from",
                  [](const PipeRow& row) { return row.farm.places.at(row.pipe.from).name; }),
      Pipe::value(
          "to",
          [](const PipeRow& row) { return row.farm.places.at(row.pipe.to).name; },
          "as in the file"),
      Pipe::number("flow_L_s", scale::flow, in_answer(&solver::PipeAnswer::flow_m3_s)),
      Pipe::number("velocity_m_s",
                   scale::velocity,
                   in_answer(&solver::PipeAnswer::velocity_m_s),
                   "positive from `from` to `to`"),
      Pipe::number("reynolds",
                   scale::ratio.with_decimals(0),
                   in_answer(&solver::PipeAnswer::reynolds),
                   "Reynolds number"),
      Pipe::number("head_loss_m",
                   scale::level,
                   in_answer(&solver::PipeAnswer::head_loss_m),
                   "head at `from` less head at `to`: friction and fittings of this pipe only"),
      Pipe::number("lowest_pressure_kPa",
                   scale::pressure,
                   in_answer(&solver::PipeAnswer::lowest_pressure_Pa)),
      Pipe::number("lowest_at_m", scale::length, in_answer(&solver::PipeAnswer::lowest_at_m)),
      Pipe::number("highest_pressure_kPa",
                   scale::pressure,
                   in_answer(&solver::PipeAnswer::highest_pressure_Pa),
                   "gauge, along the pipe; distance of the lowest from the start"),
      Pipe::number("part_full_m",
                   scale::length,
                   in_answer(&solver::PipeAnswer::part_full_m),
                   "length that runs part full"),
  };
}

Columns<PipeRow> pipe_state_columns() {
  using Pipe = Column<PipeRow>;
  return {
      Pipe::object(
          "summit",
          summit_columns(),
          in_answer(&solver::PipeAnswer::summit),
          "the downward turn of the path with the least margin: {keys}. Null where the path has "
          "none"),
      Pipe::list("summits",
                 summit_columns(),
                 in_answer(&solver::PipeAnswer::summits),
                 "every such turn, first to last, with the same keys"),
      Pipe::value(
          "state",
          [](const PipeRow& row) { return solver::word_of(row.answer.state); },
          "the first that applies: parted, near vapour, over rating, backwards, part full, "
          "suction, "
          "still (below 1e-9 m3/s), ok"),
      Pipe::number(
          "rating_kPa",
          scale::pressure,
          [](const PipeRow& row) { return si_of(row.pipe.size.rating); },
          "of the pipe as written, without what warmth takes of it; null where there is none")
          .only_in_json(),
  };
}

Columns<FlagRow> made_flag_columns() {
  using Each = Column<FlagRow>;
  return {
      Each::value("code", [](const FlagRow& row) { return solver::word_of(row.finding.code); }),
      Each::value(
          "severity",
          [](const FlagRow& row) { return solver::word_of(row.finding.severity); },
          "\"Flag codes\" below; danger, caution or note"),
      Each::value(
          "where", [](const FlagRow& row) { return row.finding.where; }, "the place or pipe"),
      Each::value(
          "text",
          [](const FlagRow& row) { return sentence_of(row.finding, row.units); },
          "a sentence, in the units the farm shows"),
      Each::number("value",
                   scale::ratio,
                   [](const FlagRow& row) {
                     return printed_figure(row.finding.value, row.finding.measure);
                   }),
      Each::number("limit",
                   scale::ratio,
                   [](const FlagRow& row) {
                     return printed_figure(row.finding.limit, row.finding.measure);
                   }),
      Each::value(
          "unit",
          [](const FlagRow& row) { return unit_word(row.finding.measure); },
          "what was found, what it is held against, their unit (\"\" for ratios); null where there "
          "is no figure"),
      Each::value(
          "case",
          [](const FlagRow& row) { return solver::word_of(row.finding.load_case); },
          "the load case in which it was found"),
  };
}

Columns<model::Diagnostic> made_problem_columns() {
  using model::Diagnostic;
  using Each = Column<Diagnostic>;
  const auto from_one = [](int count) { return count > 0 ? Json(count) : Json(nullptr); };
  return {
      Each::value("severity",
                  [](const Diagnostic& problem) { return model::severity_word(problem.severity); }),
      Each::value("code", &Diagnostic::code, "error; a stable word"),
      Each::text_or_null("file", &Diagnostic::file),
      Each::value(
          "line",
          [from_one](const Diagnostic& problem) { return from_one(problem.position.line); }),
      Each::value(
          "column",
          [from_one](const Diagnostic& problem) { return from_one(problem.position.column); },
          "where; line and column from 1"),
      Each::value("text", &Diagnostic::text),
      Each::text_or_null("hint", &Diagnostic::hint, "the sentence; how to mend it"),
  };
}

}  // namespace

std::vector<PlaceRow> place_rows(const model::Farm& farm, const solver::SteadyAnswer& answer) {
  std::vector<PlaceRow> rows;
  for (std::size_t i = 0; answer.converged && i < answer.places.size(); ++i) {
    rows.push_back({farm.places.at(i), answer.places[i]});
  }
  return rows;
}

std::vector<PipeRow> pipe_rows(const model::Farm& farm, const solver::SteadyAnswer& answer) {
  std::vector<PipeRow> rows;
  for (std::size_t i = 0; answer.converged && i < answer.pipes.size(); ++i) {
    rows.push_back({farm, farm.pipes.at(i), answer.pipes[i]});
  }
  return rows;
}

std::vector<FlagRow> flag_rows(const std::vector<solver::Finding>& findings,
                               model::UnitSystem units) {
  std::vector<FlagRow> rows;
  for (const solver::Finding& finding : findings) {
    rows.push_back({finding, units});
  }
  return rows;
}

const Columns<PlaceRow>& place_columns() {
  static const Columns<PlaceRow> columns = joined(place_level_columns(), place_water_columns());
  return columns;
}

const Columns<solver::SummitAnswer>& summit_columns() {
  static const Columns<solver::SummitAnswer> columns = made_summit_columns();
  return columns;
}

const Columns<PipeRow>& pipe_columns() {
  static const Columns<PipeRow> columns = joined(pipe_flow_columns(), pipe_state_columns());
  return columns;
}

const Columns<FlagRow>& flag_columns() {
  static const Columns<FlagRow> columns = made_flag_columns();
  return columns;
}

const Columns<model::Diagnostic>& problem_columns() {
  static const Columns<model::Diagnostic> columns = made_problem_columns();
  return columns;
}

}  // namespace leat::render
