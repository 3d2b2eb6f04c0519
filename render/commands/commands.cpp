#include "render/commands/commands.h"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "model/keys/farm_file.h"
#include "render/commands/catalogues/catalogue_report.h"
#include "render/commands/command_parts.h"
#include "render/commands/compare/compare_command.h"
#include "render/commands/fit/fit_command.h"
#include "render/commands/improve/improve_command.h"
#include "render/commands/map/map_command.h"
#include "render/commands/new/schema_file.h"
#include "render/commands/new/starter_file.h"
#include "render/commands/output_check.h"
#include "render/commands/prime/prime_report.h"
#include "render/commands/profile/profile_report.h"
#include "render/commands/read/read_report.h"
#include "render/commands/report/report_command.h"
#include "render/commands/season/season_command.h"
#include "render/commands/size/size_command.h"
#include "render/commands/solve/csv_report.h"
#include "render/commands/solve/json_report.h"
#include "render/commands/solve/spread_report.h"
#include "render/commands/solve/table_report.h"
#include "render/commands/try/try_command.h"
#include "render/document/text_table.h"
#include "render/io/interruption.h"
#include "render/io/output_file.h"
#include "render/pictures/chart/profile_chart.h"
#include "render/pictures/schematic/schematic.h"
#include "render/words/diagnostic_text.h"
#include "render/words/prime_verdict.h"
#include "render/words/profile_problems.h"
#include "solver/audit/audit.h"
#include "solver/prime/prime.h"
#include "solver/profile/profile.h"
#include "solver/steady/steady.h"
#include "solver/uncertainty/spread.h"

namespace leat::render {

namespace {

std::string solved_text(const CommandLine& line,
                        const model::Farm& farm,
                        const solver::SteadyAnswer& answer,
                        const Terminal& terminal) {
  const model::UnitSystem units = line.units.value_or(farm.show);
  switch (line.form) {
    case OutputForm::Json:
      return solve_json(farm, answer, units);
    case OutputForm::CsvPlaces:
      return places_csv(farm, answer);
    case OutputForm::CsvPipes:
      return pipes_csv(farm, answer);
    case OutputForm::CsvFlags:
      return flags_csv(answer.flags, units);
    case OutputForm::Table:
    case OutputForm::CsvPoints:
    case OutputForm::CsvTroughs:
    case OutputForm::CsvTanks:
    case OutputForm::CsvPonds:
    case OutputForm::CsvLevels:
    case OutputForm::CsvBalance:
    case OutputForm::CsvFarms:
    case OutputForm::CsvChanges:
    case OutputForm::CsvCatalogue:
      break;
  }
  return solve_table(farm, answer, {units, line.detail}, terminal);
}

/// Adds the audit's line to a result: below the table, else beside the machine's answer on stderr.
void add_audit(const CommandLine& line,
               const model::Farm& farm,
               const solver::SteadyAnswer& answer,
               const Terminal& terminal,
               CommandResult& result) {
  const solver::AuditReport audit = solver::audit_answer(farm, answer);
  if (!audit.holds()) {
    result.code = ExitCode::Failed;
    result.err += fmt::format("leat: {}\n", solver::audit_sentence(audit));
    return;
  }
  if (line.form == OutputForm::Table) {
    result.out += '\n' + wrapped(solver::audit_sentence(audit), text_width(terminal), 0);
  } else {
    result.err += solver::audit_sentence(audit) + '\n';
  }
}

CommandResult solve_with_spread(const CommandLine& line,
                                const model::LoadedFarm& loaded,
                                const Terminal& terminal) {
  const model::Farm& farm = *loaded.farm;
  solver::SpreadOptions options;
  options.steady = options_of(line);
  options.draws = *line.spread;
  options.seed = line.seed;
  const solver::Spread spread = solver::spread_of(farm, options);
  if (!spread.answer.converged) {
    return failure(line, spread.answer.problems, loaded);
  }
  CommandResult result;
  result.code = exit_code_of(spread);
  result.err = problems_text(loaded.problems, loaded);
  if (line.form == OutputForm::Json) {
    result.out = spread_json(farm, spread, line.units.value_or(farm.show));
  } else if (line.form == OutputForm::CsvPlaces) {
    result.out = spread_csv(farm, spread);
  } else {
    const TableOptions table{line.units.value_or(farm.show), line.detail};
    result.out = solve_table(farm, spread.answer, table, terminal) +
                 spread_table(farm, spread, table, terminal);
  }
  if (line.audit) {
    add_audit(line, farm, spread.answer, terminal, result);
  }
  return result;
}

CommandResult solve(const CommandLine& line,
                    const model::LoadedFarm& loaded,
                    const Terminal& terminal) {
  if (line.spread) {
    return solve_with_spread(line, loaded, terminal);
  }
  solver::SteadyAnswer answer = solver::solve_steady(*loaded.farm, options_of(line));
  for (model::Diagnostic& problem : answer.problems) {
    problem = model::placed(loaded, std::move(problem));
  }
  CommandResult result;
  result.code = exit_code_of(answer);
  result.err = problems_text(loaded.problems, loaded);
  if (!answer.converged) {
    result.err += problems_text(answer.problems, loaded);
    if (line.form == OutputForm::Json) {
      result.out = solve_json(*loaded.farm, answer, line.units.value_or(loaded.farm->show));
    }
    if (line.detail == Detail::Verbose) {
      result.err += iteration_table(answer.report);
    }
    return result;
  }
  result.out = solved_text(line, *loaded.farm, answer, terminal);
  if (line.audit) {
    add_audit(line, *loaded.farm, answer, terminal, result);
  }
  if (line.detail == Detail::Verbose) {
    result.err += iteration_table(answer.report);
  }
  return result;
}

/// The drawing's kind by the ending of its name; none for an ending leat does not draw.
std::optional<DrawFormat> format_of(const std::string& name) {
  const std::string ending = ending_of(name);
  if (ending == "svg") {
    return DrawFormat::Svg;
  }
  if (ending == "pdf") {
    return DrawFormat::Pdf;
  }
  if (ending == "png") {
    return DrawFormat::Png;
  }
  if (ending == "dot") {
    return DrawFormat::Dot;
  }
  return std::nullopt;
}

CommandResult draw(const CommandLine& line, const model::LoadedFarm& loaded) {
  const std::optional<DrawFormat> format = format_of(line.output);
  if (!format) {
    return failure(line,
                   {problem_of("unknown-ending",
                               fmt::format("cannot tell from '{}' what to draw", line.output),
                               "end it in .svg, .pdf, .png or .dot")},
                   {});
  }
  const model::Farm& farm = *loaded.farm;
  const solver::SteadyAnswer answer = solver::solve_steady(farm, options_of(line));
  if (!answer.converged) {
    return failure(line, answer.problems, loaded);
  }
  const DrawResult drawn =
      draw_schematic(farm,
                     answer,
                     {*format,
                      line.units.value_or(farm.show),
                      line.by_position ? Arrangement::ByPosition : Arrangement::AsWaterFalls});
  if (!drawn.problem.empty()) {
    return failure(line, {problem_of("cannot-draw", drawn.problem, "")}, {});
  }
  CommandResult result;
  result.code = exit_code_of(answer);
  result.err = problems_text(loaded.problems, loaded);
  if (line.output == "-") {
    result.out = drawn.bytes;
    return result;
  }
  if (const auto problem = write_output_file(line.output, drawn.bytes, line.existing)) {
    return failure(line, {problem_of(problem->code, problem->text, problem->hint)}, {});
  }
  if (line.form == OutputForm::Json) {
    result.out = draw_json(farm, answer, line.output, line.units.value_or(farm.show));
  }
  result.err += fmt::format("wrote {}\n", line.output);
  return result;
}

std::string profile_text(const CommandLine& line,
                         const model::Farm& farm,
                         const solver::Profile& profile,
                         const Terminal& terminal) {
  if (line.form == OutputForm::Json) {
    return profile_json(farm, profile, line.output, line.units.value_or(farm.show));
  }
  if (line.form == OutputForm::CsvPoints) {
    return profile_csv(farm, profile);
  }
  return profile_table(farm, profile, {line.units.value_or(farm.show), line.detail}, terminal);
}

/// The picture asked for, in its file or on stdout.
CommandResult profile_picture(const CommandLine& line,
                              const model::Farm& farm,
                              const solver::Profile& profile,
                              const Terminal& terminal) {
  const std::optional<ChartFormat> format = chart_format_of(line.output);
  if (!format) {
    return failure(line,
                   {problem_of("unknown-ending",
                               fmt::format("cannot tell from '{}' what to draw", line.output),
                               "end it in .svg, .pdf or .png")},
                   {});
  }
  const ChartResult drawn = draw_profile(farm, profile, {*format, line.units.value_or(farm.show)});
  if (!drawn.problem.empty()) {
    CommandResult result =
        failure(line, {problem_of("cannot-draw", drawn.problem, drawn.hint)}, {});
    if (line.form != OutputForm::Json && line.output != "-") {
      result.out = profile_text(line, farm, profile, terminal);  // what can be had without it
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
  if (line.form != OutputForm::Table) {
    result.out = profile_text(line, farm, profile, terminal);
  }
  result.err = fmt::format("wrote {}\n", line.output);
  return result;
}

CommandResult profile(const CommandLine& line,
                      const model::LoadedFarm& loaded,
                      const Terminal& terminal) {
  const model::Farm& farm = *loaded.farm;
  const solver::Profile found = solver::profile_of(farm, line.run, options_of(line));
  if (!found.is_made()) {
    return failure(line, profile_problems(farm, found), loaded);
  }
  CommandResult result;
  if (line.output.empty()) {
    result.out = profile_text(line, farm, found, terminal);
  } else {
    result = profile_picture(line, farm, found, terminal);
  }
  if (result.code != ExitCode::Failed) {
    result.code = exit_code_of(found.answer);
  }
  result.err = problems_text(loaded.problems, loaded) + result.err;
  return result;
}

CommandResult prime(const CommandLine& line,
                    const model::LoadedFarm& loaded,
                    const Terminal& terminal) {
  const model::Farm& farm = *loaded.farm;
  solver::PrimeOptions options;
  options.pipe = line.pipe;
  options.month = line.month;
  if (line.fill) {
    options.fill_m3_s = in_cubic_metres_per_second(*line.fill);
  }
  if (line.pump) {
    options.shut_off_Pa = in_pascals(*line.pump);
  }
  const solver::PrimePlan plan = solver::priming_plan(farm, options);
  if (!plan.is_made()) {
    return failure(line, prime_problems(farm, plan), loaded);
  }
  CommandResult result;
  result.code = exit_code_of(plan.answer);
  result.err = problems_text(loaded.problems, loaded);
  result.out =
      line.form == OutputForm::Json
          ? prime_json(farm, plan, line.units.value_or(farm.show))
          : prime_table(farm, plan, {line.units.value_or(farm.show), line.detail}, terminal);
  return result;
}

CommandResult read(const CommandLine& line,
                   const model::LoadedFarm& loaded,
                   const Terminal& terminal) {
  const model::Farm& farm = *loaded.farm;
  CommandResult result;
  result.err = problems_text(loaded.problems, loaded);
  if (line.form == OutputForm::Json) {
    result.out = read_json(farm, line.month);
  } else if (line.form == OutputForm::CsvPipes) {
    result.out = read_csv(farm, line.month);
  } else {
    result.out = read_table(farm, {line.units.value_or(farm.show), line.month}, terminal);
  }
  return result;
}

CommandResult on_farm(const CommandLine& line, const Terminal& terminal) {
  const model::LoadedFarm loaded = model::load_farm_file(line.file);
  if (!loaded.farm) {
    return failure(line, loaded.problems, loaded);
  }
  if (const auto problem = refused_output(line, loaded)) {
    return failure(line, {*problem}, {});
  }
  for (const std::string& output : outputs_of(line)) {
    expect_output(output);
  }
  if (line.command == Command::Draw) {
    return draw(line, loaded);
  }
  if (line.command == Command::Profile) {
    return profile(line, loaded, terminal);
  }
  if (line.command == Command::Prime) {
    return prime(line, loaded, terminal);
  }
  if (line.command == Command::Try) {
    return try_command(line, loaded, terminal);
  }
  if (line.command == Command::Season) {
    return season_command(line, loaded, terminal);
  }
  if (line.command == Command::Improve) {
    return improve_command(line, loaded, terminal);
  }
  if (line.command == Command::Size) {
    return size_command(line, loaded, terminal);
  }
  if (line.command == Command::Fit) {
    return fit_command(line, loaded, terminal);
  }
  if (line.command == Command::Map) {
    return map_command(line, loaded);
  }
  if (line.command == Command::Report) {
    return report_command(line, loaded, terminal);
  }
  return line.command == Command::Read ? read(line, loaded, terminal)
                                       : solve(line, loaded, terminal);
}

/// The starter farm, under the line by which an editor finds the schema.
std::string starter_text(const CommandLine& line) {
  const std::optional<std::string> schema =
      line.schema ? std::optional<std::string>(schema_name) : schema_on_this_machine();
  return (schema ? schema_line(*schema) : std::string()) + starter_file();
}

CommandResult write_starter(const CommandLine& line) {
  CommandResult result;
  std::vector<std::pair<std::string, std::string>> files;  // names and texts
  if (line.schema) {
    const std::size_t slash = line.file.rfind('/');
    const std::string folder = slash == std::string::npos ? "" : line.file.substr(0, slash + 1);
    files.emplace_back(folder + schema_name, schema_text());
  }
  const std::string text = starter_text(line);
  if (!line.file.empty()) {
    files.emplace_back(line.file, text);
  }
  // All can be written before any is.
  for (const auto& [file, bytes] : files) {
    expect_output(file);
    if (const auto problem = output_problem(file, line.existing)) {
      return failure(line, {problem_of(problem->code, problem->text, problem->hint)}, {});
    }
  }
  for (const auto& [file, bytes] : files) {
    if (const auto problem = write_output_file(file, bytes, line.existing)) {
      return failure(line, {problem_of(problem->code, problem->text, problem->hint)}, {});
    }
    result.err += fmt::format("wrote {}\n", file);
  }
  if (line.form == OutputForm::Json) {
    result.out = new_json(line.file, text);
  } else if (line.file.empty()) {
    result.out = text;
  }
  return result;
}

}  // namespace

CommandResult run_command(const CommandLine& line, const Terminal& terminal) {
  const model::UnitSystem units = line.units.value_or(model::UnitSystem::Metric);
  switch (line.command) {
    case Command::New:
      return write_starter(line);
    case Command::Read:
    case Command::Solve:
    case Command::Draw:
    case Command::Profile:
    case Command::Prime:
    case Command::Season:
    case Command::Try:
    case Command::Improve:
    case Command::Size:
    case Command::Fit:
    case Command::Map:
    case Command::Report:
      return on_farm(line, terminal);
    case Command::Compare:
      return compare_command(line, terminal);
    case Command::Pipes:
      return {pipes_text(line.form, units), "", ExitCode::NothingAmiss};
    case Command::Fittings:
      return {fittings_text(line.form, units), "", ExitCode::NothingAmiss};
    case Command::Herd:
      return {herd_text(line.form, units), "", ExitCode::NothingAmiss};
  }
  return {};
}

}  // namespace leat::render
