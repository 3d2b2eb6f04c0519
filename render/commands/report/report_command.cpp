#include "render/commands/report/report_command.h"

#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "render/commands/command_parts.h"
#include "render/commands/output_check.h"
#include "render/commands/report/report.h"
#include "render/commands/solve/answer_json.h"
#include "render/document/json_text.h"
#include "render/io/output_file.h"
#include "render/io/pdf_printer.h"
#include "render/words/diagnostic_text.h"

namespace leat::render {

namespace {

/// The name of the file must say that it is a page.
std::optional<model::Diagnostic> ending_problem(const CommandLine& line) {
  const std::string ending = ending_of(line.output);
  if (line.output != "-" && ending != "html" && ending != "htm") {
    return problem_of(
        "unknown-ending",
        fmt::format("cannot tell from '{}' what to write", line.output),
        ending == "pdf" ? "end it in .html; --pdf writes the PDF beside it" : "end it in .html");
  }
  return std::nullopt;
}

std::string report_json(const model::Farm& farm,
                        const report::Report& made,
                        const std::string& wrote,
                        const std::string& pdf,
                        model::UnitSystem units) {
  Json object = head_of_answer("report", farm, made.answer);
  object["wrote"] = wrote;
  object["pdf"] = pdf.empty() ? Json(nullptr) : Json(pdf);
  object["chapters"] = made.chapters;
  object["flags"] = flag_list(made.flags, units);
  return json_text(object);
}

/// Prints the PDF and writes it; its problem where there is none.
std::optional<model::Diagnostic> write_pdf(const CommandLine& line,
                                           const std::string& html,
                                           model::UnitSystem units) {
  const report::PdfResult printed = report::print_to_pdf(html, units);
  if (!printed.problem.empty()) {
    return problem_of("cannot-print", printed.problem, printed.hint);
  }
  if (const auto problem =
          write_output_file(pdf_beside(line.output), printed.bytes, line.existing)) {
    return problem_of(problem->code, problem->text, problem->hint);
  }
  return std::nullopt;
}

}  // namespace

CommandResult report_command(const CommandLine& line,
                             const model::LoadedFarm& loaded,
                             const Terminal& terminal) {
  if (const auto problem = ending_problem(line)) {
    return failure(line, {*problem}, {});
  }
  const model::Farm& farm = *loaded.farm;
  report::ReportOptions options;
  options.chapters = line.chapters;
  options.month = line.month;
  options.units = line.units;
  options.from = line.from;
  options.to = line.to;
  options.progress = terminal.progress;
  const report::Report made = report::make_report(loaded, options);
  if (!made.answer.converged) {
    return failure(line, made.answer.problems, loaded);
  }
  std::vector<model::Diagnostic> problems = made.problems;
  std::string written;
  std::string pdf;
  if (line.output != "-") {
    if (const auto problem = write_output_file(line.output, made.html, line.existing)) {
      return failure(line, {problem_of(problem->code, problem->text, problem->hint)}, {});
    }
    written = fmt::format("wrote {}\n", line.output);
  }
  if (line.pdf) {
    if (const auto problem = write_pdf(line, made.html, line.units.value_or(farm.show))) {
      problems.push_back(*problem);
    } else {
      pdf = pdf_beside(line.output);
      written += fmt::format("wrote {}\n", pdf);
    }
  }
  CommandResult result;
  if (!problems.empty()) {
    result = failure(line, problems, loaded);  // what can be had without it stands written
  } else {
    result.code = made.amiss ? ExitCode::Amiss : ExitCode::NothingAmiss;
    if (line.form == OutputForm::Json) {
      result.out = report_json(farm, made, line.output, pdf, line.units.value_or(farm.show));
    }
  }
  if (line.output == "-") {
    result.out = made.html;
  }
  result.err = problems_text(loaded.problems, loaded) + result.err + written;
  return result;
}

}  // namespace leat::render
