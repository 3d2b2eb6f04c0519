#include "render/commands/season/command.h"

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "render/commands/command_parts.h"
#include "render/commands/season/season_csv.h"
#include "render/commands/season/season_dates.h"
#include "render/commands/season/season_json.h"
#include "render/commands/season/season_report.h"
#include "render/commands/season/season_spread_report.h"
#include "render/io/clock.h"
#include "render/io/progress.h"
#include "render/pictures/chart/season_chart.h"
#include "render/words/diagnostic_text.h"
#include "render/words/season_problems.h"
#include "solver/season/first_short.h"
#include "solver/season/season.h"
#include "solver/uncertainty/season_spread.h"

namespace leat::render {

namespace {

constexpr std::array<Choice<SeasonTable>, 5> season_csv_tables = {
    {{"troughs", SeasonTable::Troughs},
     {"tanks", SeasonTable::Tanks},
     {"ponds", SeasonTable::Ponds},
     {"levels", SeasonTable::Levels},
     {"balance", SeasonTable::Balance}}};

std::string table_csv(const SeasonCommand& asked,
                      const model::Farm& farm,
                      const solver::SeasonAnswer& answer) {
  switch (asked.table) {
    case SeasonTable::Troughs:
      return season_troughs_csv(farm, answer, asked.units_for(farm));
    case SeasonTable::Tanks:
      return season_tanks_csv(farm, answer);
    case SeasonTable::Ponds:
      return season_ponds_csv(farm, answer);
    case SeasonTable::Levels:
      return season_levels_csv(farm, answer);
    case SeasonTable::Balance:
      break;
  }
  return season_balance_csv(answer);
}

std::string season_text(const SeasonCommand& asked,
                        const model::Farm& farm,
                        const solver::SeasonAnswer& answer,
                        const std::string& dates_chosen,
                        const Terminal& terminal) {
  switch (asked.form()) {
    case AnswerForm::Json:
      return season_json(farm, answer, asked.units_for(farm));
    case AnswerForm::Csv:
      return table_csv(asked, farm, answer);
    case AnswerForm::Screen:
      break;
  }
  return season_table(
      farm,
      answer,
      {asked.units_for(farm), dates_chosen, asked.until_dry, asked.spread.draws.has_value()},
      terminal);
}

CommandResult season_picture(const SeasonCommand& asked,
                             const model::Farm& farm,
                             const solver::SeasonAnswer& answer,
                             const std::string& dates_chosen,
                             const Terminal& terminal) {
  const std::optional<ChartFormat> format = chart_format_of(asked.output.file);
  const ChartResult drawn =
      draw_season(farm, answer, {format.value_or(ChartFormat::Svg), asked.units_for(farm)});
  if (!drawn.problem.empty()) {
    CommandResult result =
        failure(asked, {problem_of("cannot-draw", drawn.problem, drawn.hint)}, {});
    if (!asked.json && !asked.output.is_stdout()) {
      result.out = season_text(asked, farm, answer, dates_chosen, terminal);  // what can be had
    }
    return result;
  }
  CommandResult result;
  if (asked.output.is_stdout()) {
    result.out = drawn.bytes;
    return result;
  }
  if (const auto problem = writing_problem(asked.output, drawn.bytes)) {
    return failure(asked, {*problem}, {});
  }
  result.out = season_text(asked, farm, answer, dates_chosen, terminal);
  result.err = fmt::format("wrote {}\n", asked.output.file);
  return result;
}

CommandResult unsolved(const SeasonCommand& asked,
                       const model::LoadedFarm& loaded,
                       const solver::SeasonAnswer& answer) {
  const model::Farm& farm = *loaded.farm;
  CommandResult result = failure(asked, season_diagnostics(answer.problems, farm.file), loaded);
  if (asked.json) {
    result.out = season_json(farm, answer, asked.units_for(farm));
  }
  return result;
}

std::string spread_csv(SeasonTable table,
                       const model::Farm& farm,
                       const solver::SeasonSpread& spread) {
  switch (table) {
    case SeasonTable::Tanks:
      return season_spread_tanks_csv(farm, spread);
    case SeasonTable::Ponds:
      return season_spread_ponds_csv(farm, spread);
    case SeasonTable::Troughs:
    case SeasonTable::Levels:  // refused by check()
    case SeasonTable::Balance:
      break;
  }
  return season_spread_troughs_csv(farm, spread);
}

std::string spread_text(const SeasonCommand& asked,
                        const model::Farm& farm,
                        const solver::SeasonSpread& spread,
                        const std::string& dates_chosen,
                        const Terminal& terminal) {
  switch (asked.form()) {
    case AnswerForm::Json:
      return season_spread_json(farm, spread, asked.units_for(farm));
    case AnswerForm::Csv:
      return spread_csv(asked.table, farm, spread);
    case AnswerForm::Screen:
      break;
  }
  return season_text(asked, farm, spread.answer, dates_chosen, terminal) +
         season_spread_table(farm, spread, {asked.units_for(farm), Detail::Short}, terminal);
}

CommandResult season_with_spread(const SeasonCommand& asked,
                                 const model::LoadedFarm& loaded,
                                 const solver::SeasonOptions& season,
                                 const SeasonDates& dates,
                                 const Terminal& terminal) {
  const model::Farm& farm = *loaded.farm;
  solver::SeasonSpreadOptions options;
  options.season = season;
  options.draws = *asked.spread.draws;
  options.seed = asked.spread.seed_or_usual();
  std::optional<ProgressLine> progress(std::in_place, terminal.progress, "seasons");
  solver::SeasonSpread spread = solver::season_spread_of(farm, options, [&](double share) {
    progress->tell(share);
    return true;
  });
  progress.reset();
  if (!spread.answer.converged) {
    spread.answer.from = dates.from;
    spread.answer.to = dates.to;
    return unsolved(asked, loaded, spread.answer);
  }
  CommandResult result;
  result.out = spread_text(asked, farm, spread, dates.chosen, terminal);
  result.code = exit_code_of(spread);
  result.err = problems_text(loaded.problems, loaded);
  return result;
}

}  // namespace

CommandResult season_result(const SeasonCommand& asked,
                            const model::LoadedFarm& loaded,
                            const solver::SeasonAnswer& answer,
                            const std::string& dates_chosen,
                            const Terminal& terminal) {
  if (!answer.converged) {
    return unsolved(asked, loaded, answer);
  }
  const model::Farm& farm = *loaded.farm;
  CommandResult result;
  if (!asked.output.is_asked()) {
    result.out = season_text(asked, farm, answer, dates_chosen, terminal);
  } else {
    result = season_picture(asked, farm, answer, dates_chosen, terminal);
  }
  if (result.code != ExitCode::Failed) {
    result.code = exit_code_of(answer.converged, answer.flags);
  }
  result.err = problems_text(loaded.problems, loaded) + result.err;
  return result;
}

CommandHead SeasonCommand::head() const {
  return {"season",
          "Run the farm through its dates: who goes short when, tanks, ponds, where water went.",
          "  leat season my-farm.yaml\n"
          "  leat season my-farm.yaml --from 2026-05-01 --to 2026-10-31 -o season.svg\n"
          "  leat season my-farm.yaml --until-dry \"upper spring\"\n"};
}

std::vector<Option> SeasonCommand::farm_options() {
  std::vector<Option> options = span_options(span);
  options.insert(options.begin(),
                 csv_option<SeasonTable>(
                     "print CSV: --csv=troughs (the usual), tanks, ponds, levels or balance",
                     season_csv_tables,
                     csv,
                     table));
  options.push_back(name_option({"--until-dry"},
                                "SPRING",
                                "find the yield of SPRING at which each trough first goes short",
                                until_dry));
  options.push_back(spread_option(
      "how sure the season is, by N seasons (100 if not given) of the farm as it may be",
      solver::usual_season_draws,
      spread));
  options.push_back(seed_option(spread));
  options.push_back(output_option(
      "file to draw to: name.svg, .pdf or .png; - prints SVG", chart_endings(), output.file));
  options.push_back(units_option(units));
  options.push_back(replace_option(output));
  return options;
}

std::optional<UsageProblem> SeasonCommand::check() const {
  if (auto problem = FarmCommand::check()) {
    return problem;
  }
  if (auto problem = both_on_stdout(*this, output)) {
    return problem;
  }
  if (!spread.draws) {
    return seed_without_spread(spread);
  }
  if (until_dry) {
    return flags_clash("--spread and --until-dry cannot both be had",
                       "ask for one, then for the other: --until-dry runs the farm as written");
  }
  if (output.is_asked()) {
    return flags_clash("--spread has no picture", "leave out -o, or --spread");
  }
  if (table == SeasonTable::Levels || table == SeasonTable::Balance) {
    return flags_clash("--spread has a CSV of troughs, tanks and ponds only",
                       "write --csv, --csv=tanks or --csv=ponds");
  }
  return std::nullopt;
}

CommandResult SeasonCommand::answer(const model::LoadedFarm& loaded,
                                    const Terminal& terminal) const {
  const model::Farm& farm = *loaded.farm;
  // What can be refused is refused before the run, which may take a while.
  if (output.is_asked() && !chart_format_of(output.file)) {
    return failure(*this, {unknown_picture(output.file)}, {});
  }
  if (until_dry) {
    if (const auto problem = solver::spring_problem(farm, *until_dry)) {
      return failure(*this, {season_diagnostic(*problem)}, {});
    }
  }
  const model::Date today = model::parse_date(drawing_date()).value_or(model::Date{});
  const SeasonDates dates = season_dates(farm, span.from, span.to, today);
  solver::SeasonOptions options;
  options.from = dates.from;
  options.to = dates.to;
  options.step_s = span.step_s.value_or(options.step_s);
  options.until_dry = until_dry;
  if (spread.draws) {
    return season_with_spread(*this, loaded, options, dates, terminal);
  }
  std::optional<ProgressLine> progress(std::in_place, terminal.progress, "season");
  solver::SeasonAnswer answer = solver::run_season(farm, options, [&progress](double share) {
    progress->tell(share);
    return true;
  });
  progress.reset();  // the line is gone before anything is printed
  if (!answer.converged) {
    answer.from = dates.from;  // what was asked for, however far the run came
    answer.to = dates.to;
  }
  return season_result(*this, loaded, answer, dates.chosen, terminal);
}

}  // namespace leat::render
