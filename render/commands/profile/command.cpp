#include "render/commands/profile/command.h"

#include <fmt/format.h>

#include "render/commands/command_parts.h"
#include "render/commands/profile/profile_report.h"
#include "render/pictures/chart/profile_chart.h"
#include "render/words/diagnostic_text.h"
#include "render/words/profile_problems.h"
#include "solver/profile/profile.h"

namespace leat::render {

namespace {

std::string profile_text(const ProfileCommand& asked,
                         const model::Farm& farm,
                         const solver::Profile& profile,
                         const Terminal& terminal) {
  switch (asked.form()) {
    case AnswerForm::Json:
      return profile_json(farm, profile, asked.output.file, asked.units_for(farm));
    case AnswerForm::Csv:
      return profile_csv(farm, profile);
    case AnswerForm::Screen:
      break;
  }
  return profile_table(farm, profile, {asked.units_for(farm), Detail::Short}, terminal);
}

/// The picture asked for, in its file or on stdout.
CommandResult profile_picture(const ProfileCommand& asked,
                              const model::Farm& farm,
                              const solver::Profile& profile,
                              const Terminal& terminal) {
  const std::optional<ChartFormat> format = chart_format_of(asked.output.file);
  if (!format) {
    return failure(asked, {unknown_picture(asked.output.file)}, {});
  }
  const ChartResult drawn = draw_profile(farm, profile, {*format, asked.units_for(farm)});
  if (!drawn.problem.empty()) {
    CommandResult result =
        failure(asked, {problem_of("cannot-draw", drawn.problem, drawn.hint)}, {});
    if (!asked.json && !asked.output.is_stdout()) {
      result.out = profile_text(asked, farm, profile, terminal);  // what can be had without it
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
  if (asked.form() != AnswerForm::Screen) {
    result.out = profile_text(asked, farm, profile, terminal);
  }
  result.err = fmt::format("wrote {}\n", asked.output.file);
  return result;
}

}  // namespace

CommandHead ProfileCommand::head() const {
  return {"profile",
          "A pipe or a run of pipes from the side: levels, grade lines, suction, summits.",
          "  leat profile my-farm.yaml \"creek line\"\n"
          "  leat profile my-farm.yaml \"creek..top trough\" -o line.svg\n"};
}

std::vector<Option> ProfileCommand::farm_options() {
  return {
      name_argument("RUN",
                    "PIPE or \"FROM..TO\"; if not given, the pipe with the worst summit, else "
                    "the longest",
                    pipes),
      csv_option("points", csv),
      any_case_option(moment),
      broken_option(moment),
      output_option(
          "file to draw to: name.svg, .pdf or .png; - prints SVG", chart_endings(), output.file),
      month_option(moment.month),
      units_option(units),
      replace_option(output)};
}

std::optional<UsageProblem> ProfileCommand::check() const {
  if (auto problem = FarmCommand::check()) {
    return problem;
  }
  return both_on_stdout(*this, output);
}

CommandResult ProfileCommand::answer(const model::LoadedFarm& loaded,
                                     const Terminal& terminal) const {
  const model::Farm& farm = *loaded.farm;
  const solver::Profile found = solver::profile_of(farm, pipes.value_or(""), options_of(moment));
  if (!found.is_made()) {
    return failure(*this, profile_problems(farm, found), loaded);
  }
  CommandResult result;
  if (output.is_asked()) {
    result = profile_picture(*this, farm, found, terminal);
  } else {
    result.out = profile_text(*this, farm, found, terminal);
  }
  if (result.code != ExitCode::Failed) {
    result.code = exit_code_of(found.answer);
  }
  result.err = problems_text(loaded.problems, loaded) + result.err;
  return result;
}

}  // namespace leat::render
