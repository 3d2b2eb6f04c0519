#include "render/commands/draw/command.h"

#include <string>

#include <fmt/format.h>

#include "render/commands/command_parts.h"
#include "render/commands/solve/json_report.h"
#include "render/pictures/schematic/schematic.h"
#include "render/words/diagnostic_text.h"
#include "solver/steady/steady.h"

namespace leat::render {

namespace {

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

}  // namespace

CommandHead DrawCommand::head() const {
  return {"draw",
          "Draw the farm with its answer; the ending of OUT says svg, pdf, png or dot.",
          "  leat draw my-farm.yaml -o my-farm.svg\n  leat draw my-farm.yaml -o -\n"};
}

std::vector<Option> DrawCommand::farm_options() {
  return {any_case_option(moment),
          broken_option(moment),
          output_option("file to draw to: name.svg, .pdf, .png or .dot; - prints SVG",
                        {"svg", "pdf", "png", "dot"},
                        output.file),
          switch_option({"--by-position"}, "places stand as their `map` keys say", by_position),
          month_option(moment.month),
          units_option(units),
          replace_option(output)};
}

std::optional<UsageProblem> DrawCommand::check() const {
  if (auto problem = FarmCommand::check()) {
    return problem;
  }
  if (auto problem = missing_output(output,
                                    "where to draw is missing",
                                    "write -o farm.svg, .pdf, .png or .dot, or -o - for SVG on "
                                    "stdout")) {
    return problem;
  }
  return both_on_stdout(*this, output);
}

CommandResult DrawCommand::answer(const model::LoadedFarm& loaded,
                                  const Terminal& /*terminal*/) const {
  const std::optional<DrawFormat> format = format_of(output.file);
  if (!format) {
    return failure(*this,
                   {problem_of("unknown-ending",
                               fmt::format("cannot tell from '{}' what to draw", output.file),
                               "end it in .svg, .pdf, .png or .dot")},
                   {});
  }
  const model::Farm& farm = *loaded.farm;
  const solver::SteadyAnswer answer = solver::solve_steady(farm, options_of(moment));
  if (!answer.converged) {
    return failure(*this, answer.problems, loaded);
  }
  const DrawResult drawn =
      draw_schematic(farm,
                     answer,
                     {*format,
                      units_for(farm),
                      by_position ? Arrangement::ByPosition : Arrangement::AsWaterFalls});
  if (!drawn.problem.empty()) {
    return failure(*this, {problem_of("cannot-draw", drawn.problem, "")}, {});
  }
  CommandResult result;
  result.code = exit_code_of(answer);
  result.err = problems_text(loaded.problems, loaded);
  if (output.is_stdout()) {
    result.out = drawn.bytes;
    return result;
  }
  if (const auto problem = writing_problem(output, drawn.bytes)) {
    return failure(*this, {*problem}, {});
  }
  if (json) {
    result.out = draw_json(farm, answer, output.file, units_for(farm));
  }
  result.err += fmt::format("wrote {}\n", output.file);
  return result;
}

}  // namespace leat::render
