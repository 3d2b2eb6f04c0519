#include "render/commands.h"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "model/farm_file.h"
#include "render/catalogue_report.h"
#include "render/csv_report.h"
#include "render/diagnostic_text.h"
#include "render/json_report.h"
#include "render/output_file.h"
#include "render/read_report.h"
#include "render/schematic/schematic.h"
#include "render/starter_file.h"
#include "render/table_report.h"
#include "solver/steady.h"

namespace leat::render {

namespace {

std::string word_of(Command command) {
  switch (command) {
    case Command::New:
      return "new";
    case Command::Read:
      return "read";
    case Command::Solve:
      return "solve";
    case Command::Draw:
      return "draw";
    case Command::Pipes:
      return "pipes";
    case Command::Fittings:
      return "fittings";
    case Command::Herd:
      return "herd";
  }
  return "";
}

/// A command that came to nothing: the problems on stderr, and as JSON where that was asked for.
CommandResult failure(const CommandLine& line,
                      const std::vector<model::Diagnostic>& problems,
                      const model::LoadedFarm& loaded) {
  CommandResult result;
  result.code = ExitCode::Failed;
  result.err = problems_text(problems, loaded);
  if (line.form == OutputForm::Json) {
    result.out = problems_json(word_of(line.command), problems);
  }
  return result;
}

model::Diagnostic problem_of(std::string code, std::string text, std::string hint) {
  model::Diagnostic problem;
  problem.code = std::move(code);
  problem.text = std::move(text);
  problem.hint = std::move(hint);
  return problem;
}

solver::SteadyOptions options_of(const CommandLine& line) {
  solver::SteadyOptions options;
  options.load_case = line.load_case;
  options.broken = line.broken;
  options.month = line.month;
  options.units = line.units;
  return options;
}

bool is_amiss(const solver::SteadyAnswer& answer) {
  return std::any_of(answer.flags.begin(), answer.flags.end(), [](const solver::Flag& flag) {
    return flag.severity != solver::FlagSeverity::Note;
  });
}

ExitCode exit_code_of(const solver::SteadyAnswer& answer) {
  if (!answer.converged) {
    return ExitCode::Failed;
  }
  return is_amiss(answer) ? ExitCode::Amiss : ExitCode::NothingAmiss;
}

std::string solved_text(const CommandLine& line,
                        const model::Farm& farm,
                        const solver::SteadyAnswer& answer,
                        const Terminal& terminal) {
  switch (line.form) {
    case OutputForm::Json:
      return solve_json(farm, answer);
    case OutputForm::CsvPlaces:
      return places_csv(farm, answer);
    case OutputForm::CsvPipes:
      return pipes_csv(farm, answer);
    case OutputForm::CsvFlags:
      return flags_csv(answer);
    case OutputForm::Table:
    case OutputForm::CsvCatalogue:
      break;
  }
  return solve_table(farm, answer, {line.units.value_or(farm.show), line.detail}, terminal);
}

CommandResult solve(const CommandLine& line,
                    const model::LoadedFarm& loaded,
                    const Terminal& terminal) {
  const solver::SteadyAnswer answer = solver::solve_steady(*loaded.farm, options_of(line));
  CommandResult result;
  result.code = exit_code_of(answer);
  result.err = problems_text(loaded.problems, loaded);
  if (!answer.converged) {
    result.err += problems_text(answer.problems, loaded);
    if (line.form == OutputForm::Json) {
      result.out = solve_json(*loaded.farm, answer);
    }
    if (line.detail == Detail::Verbose) {
      result.err += iteration_table(answer.report);
    }
    return result;
  }
  result.out = solved_text(line, *loaded.farm, answer, terminal);
  if (line.detail == Detail::Verbose) {
    result.err += iteration_table(answer.report);
  }
  return result;
}

/// The drawing's kind by the ending of its name; none for an ending leat does not draw.
std::optional<DrawFormat> format_of(const std::string& name) {
  if (name == "-") {
    return DrawFormat::Svg;
  }
  const std::size_t dot = name.rfind('.');
  std::string ending = dot == std::string::npos ? std::string() : name.substr(dot + 1);
  for (char& letter : ending) {
    letter = letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
  }
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
  const DrawResult drawn = draw_schematic(farm, answer, {*format, line.units.value_or(farm.show)});
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
    result.out = draw_json(farm, answer, line.output);
  }
  result.err += fmt::format("wrote {}\n", line.output);
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
  if (line.command == Command::Draw) {
    return draw(line, loaded);
  }
  return line.command == Command::Read ? read(line, loaded, terminal)
                                       : solve(line, loaded, terminal);
}

CommandResult write_starter(const CommandLine& line) {
  CommandResult result;
  if (!line.file.empty()) {
    if (const auto problem = write_output_file(line.file, starter_file(), line.existing)) {
      return failure(line, {problem_of(problem->code, problem->text, problem->hint)}, {});
    }
    result.err = fmt::format("wrote {}\n", line.file);
  }
  if (line.form == OutputForm::Json) {
    result.out = new_json(line.file, starter_file());
  } else if (line.file.empty()) {
    result.out = starter_file();
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
      return on_farm(line, terminal);
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
