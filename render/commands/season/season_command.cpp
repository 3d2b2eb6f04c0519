#include "render/commands/season/season_command.h"

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
#include "render/io/output_file.h"
#include "render/io/progress.h"
#include "render/pictures/chart/season_chart.h"
#include "render/words/diagnostic_text.h"
#include "render/words/season_problems.h"
#include "solver/season/first_short.h"
#include "solver/season/season.h"
#include "solver/uncertainty/season_spread.h"

namespace leat::render {

namespace {

std::string season_text(const CommandLine& line,
                        const model::Farm& farm,
                        const solver::SeasonAnswer& answer,
                        const std::string& dates_chosen,
                        const Terminal& terminal) {
  switch (line.form) {
    case OutputForm::Json:
      return season_json(farm, answer, line.units.value_or(farm.show));
    case OutputForm::CsvTroughs:
      return season_troughs_csv(farm, answer, line.units.value_or(farm.show));
    case OutputForm::CsvTanks:
      return season_tanks_csv(farm, answer);
    case OutputForm::CsvPonds:
      return season_ponds_csv(farm, answer);
    case OutputForm::CsvLevels:
      return season_levels_csv(farm, answer);
    case OutputForm::CsvBalance:
      return season_balance_csv(answer);
    default:
      return season_table(
          farm,
          answer,
          {line.units.value_or(farm.show), dates_chosen, line.until_dry, line.spread.has_value()},
          terminal);
  }
}

CommandResult season_picture(const CommandLine& line,
                             const model::Farm& farm,
                             const solver::SeasonAnswer& answer,
                             const std::string& dates_chosen,
                             const Terminal& terminal) {
  const std::optional<ChartFormat> format = chart_format_of(line.output);
  const ChartResult drawn = draw_season(
      farm, answer, {format.value_or(ChartFormat::Svg), line.units.value_or(farm.show)});
  if (!drawn.problem.empty()) {
    CommandResult result =
        failure(line, {problem_of("cannot-draw", drawn.problem, drawn.hint)}, {});
    if (line.form != OutputForm::Json && line.output != "-") {
      result.out = season_text(line, farm, answer, dates_chosen, terminal);  // what can be had
    }
    return result;
  }
  CommandResult result;
  if (line.output == "-") {
    result.out = drawn.bytes;
    return result;
  }
  if (const auto problem = write_output_file(line.output, drawn.bytes, line.existing)) {
    return failure(line, {problem_of(problem->code, problem->text, problem->hint)}, {});
  }
  result.out = season_text(line, farm, answer, dates_chosen, terminal);
  result.err = fmt::format("wrote {}\n", line.output);
  return result;
}

CommandResult unsolved(const CommandLine& line,
                       const model::LoadedFarm& loaded,
                       const solver::SeasonAnswer& answer) {
  const model::Farm& farm = *loaded.farm;
  CommandResult result = failure(line, season_diagnostics(answer.problems, farm.file), loaded);
  if (line.form == OutputForm::Json) {
    result.out = season_json(farm, answer, line.units.value_or(farm.show));
  }
  return result;
}

std::string spread_text(const CommandLine& line,
                        const model::Farm& farm,
                        const solver::SeasonSpread& spread,
                        const std::string& dates_chosen,
                        const Terminal& terminal) {
  switch (line.form) {
    case OutputForm::Json:
      return season_spread_json(farm, spread, line.units.value_or(farm.show));
    case OutputForm::CsvTroughs:
      return season_spread_troughs_csv(farm, spread);
    case OutputForm::CsvTanks:
      return season_spread_tanks_csv(farm, spread);
    case OutputForm::CsvPonds:
      return season_spread_ponds_csv(farm, spread);
    default:
      return season_text(line, farm, spread.answer, dates_chosen, terminal) +
             season_spread_table(
                 farm, spread, {line.units.value_or(farm.show), line.detail}, terminal);
  }
}

CommandResult season_with_spread(const CommandLine& line,
                                 const model::LoadedFarm& loaded,
                                 const solver::SeasonOptions& season,
                                 const SeasonDates& dates,
                                 const Terminal& terminal) {
  const model::Farm& farm = *loaded.farm;
  solver::SeasonSpreadOptions options;
  options.season = season;
  options.draws = *line.spread;
  options.seed = line.seed;
  std::optional<ProgressLine> progress(std::in_place, terminal.progress, "seasons");
  solver::SeasonSpread spread = solver::season_spread_of(farm, options, [&](double share) {
    progress->tell(share);
    return true;
  });
  progress.reset();
  if (!spread.answer.converged) {
    spread.answer.from = dates.from;
    spread.answer.to = dates.to;
    return unsolved(line, loaded, spread.answer);
  }
  CommandResult result;
  result.out = spread_text(line, farm, spread, dates.chosen, terminal);
  result.code = exit_code_of(spread);
  result.err = problems_text(loaded.problems, loaded);
  return result;
}

}  // namespace

CommandResult season_result(const CommandLine& line,
                            const model::LoadedFarm& loaded,
                            const solver::SeasonAnswer& answer,
                            const std::string& dates_chosen,
                            const Terminal& terminal) {
  if (!answer.converged) {
    return unsolved(line, loaded, answer);
  }
  const model::Farm& farm = *loaded.farm;
  CommandResult result;
  if (line.output.empty()) {
    result.out = season_text(line, farm, answer, dates_chosen, terminal);
  } else {
    result = season_picture(line, farm, answer, dates_chosen, terminal);
  }
  if (result.code != ExitCode::Failed) {
    result.code = exit_code_of(answer.converged, answer.flags);
  }
  result.err = problems_text(loaded.problems, loaded) + result.err;
  return result;
}

CommandResult season_command(const CommandLine& line,
                             const model::LoadedFarm& loaded,
                             const Terminal& terminal) {
  const model::Farm& farm = *loaded.farm;
  // What can be refused is refused before the run, which may take a while.
  if (!line.output.empty() && !chart_format_of(line.output)) {
    return failure(line,
                   {problem_of("unknown-ending",
                               fmt::format("cannot tell from '{}' what to draw", line.output),
                               "end it in .svg, .pdf or .png")},
                   {});
  }
  if (line.until_dry) {
    if (const auto problem = solver::spring_problem(farm, *line.until_dry)) {
      return failure(line, {season_diagnostic(*problem)}, {});
    }
  }
  const model::Date today = model::parse_date(drawing_date()).value_or(model::Date{});
  const SeasonDates dates = season_dates(farm, line.from, line.to, today);
  solver::SeasonOptions options;
  options.from = dates.from;
  options.to = dates.to;
  options.step_s = line.step_s.value_or(options.step_s);
  options.until_dry = line.until_dry;
  if (line.spread) {
    return season_with_spread(line, loaded, options, dates, terminal);
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
  return season_result(line, loaded, answer, dates.chosen, terminal);
}

}  // namespace leat::render
