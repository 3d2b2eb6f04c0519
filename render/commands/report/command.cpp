#include "render/commands/report/command.h"

#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "render/commands/command_parts.h"
#include "render/commands/report/report.h"
#include "render/commands/solve/answer_json.h"
#include "render/document/json_text.h"
#include "render/io/pdf_printer.h"
#include "render/words/diagnostic_text.h"

namespace leat::render {

namespace {

/// "farm.html" becomes "farm.pdf".
std::string pdf_beside(const std::string& html_file) {
  return html_file.substr(0, html_file.rfind('.')) + ".pdf";
}

/// The name of the file must say that it is a page.
std::optional<model::Diagnostic> ending_problem(const ReportCommand& asked) {
  const std::string ending = ending_of(asked.output.file);
  if (!asked.output.is_stdout() && ending != "html" && ending != "htm") {
    return problem_of(
        "unknown-ending",
        fmt::format("cannot tell from '{}' what to write", asked.output.file),
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
std::optional<model::Diagnostic> write_pdf(const ReportCommand& asked,
                                           const std::string& html,
                                           model::UnitSystem units) {
  const report::PdfResult printed = report::print_to_pdf(html, units);
  if (!printed.problem.empty()) {
    return problem_of("cannot-print", printed.problem, printed.hint);
  }
  return writing_problem({pdf_beside(asked.output.file), asked.output.existing}, printed.bytes);
}

}  // namespace

CommandHead ReportCommand::head() const {
  return {"report",
          "The record to file, print and hand on: everything about FILE on one page, HTML or PDF.",
          "  leat report my-farm.yaml -o my-farm.html\n"
          "  leat report my-farm.yaml -o my-farm.html --pdf --chapters water,findings,priming\n"};
}

std::vector<Option> ReportCommand::farm_options() {
  return {
      output_option("file to write: name.html; - prints HTML", {"html"}, output.file),
      switch_option({"--pdf"}, "print it to name.pdf as well, with the machine's Chromium", pdf),
      list_option({"--chapters"},
                  fmt::format("which, with commas: {}; cautions always come along",
                              fmt::join(report::chapter_names, ", ")),
                  "a report",
                  "chapter",
                  {report::chapter_names.begin(), report::chapter_names.end()},
                  chapters),
      from_option("the season's first day; 1 January if not given", span),
      to_option("the season's last day; 31 December if not given", span),
      month_option(month),
      units_option(units),
      replace_option(output)};
}

std::optional<UsageProblem> ReportCommand::check() const {
  if (auto problem = FarmCommand::check()) {
    return problem;
  }
  if (auto problem = missing_output(output,
                                    "where to write the report is missing",
                                    "write -o farm.html, or -o - for HTML on stdout")) {
    return problem;
  }
  if (pdf && output.is_stdout()) {
    return flags_clash("--pdf needs a file to stand beside", "write -o farm.html --pdf");
  }
  return both_on_stdout(*this, output);
}

std::vector<std::string> ReportCommand::files_written() const {
  std::vector<std::string> files = FarmCommand::files_written();
  if (pdf && !files.empty()) {
    files.push_back(pdf_beside(output.file));
  }
  return files;
}

CommandResult ReportCommand::answer(const model::LoadedFarm& loaded,
                                    const Terminal& terminal) const {
  if (const auto problem = ending_problem(*this)) {
    return failure(*this, {*problem}, {});
  }
  const model::Farm& farm = *loaded.farm;
  report::ReportOptions options;
  options.chapters = chapters;
  options.month = month;
  options.units = units;
  options.from = span.from;
  options.to = span.to;
  options.progress = terminal.progress;
  const report::Report made = report::make_report(loaded, options);
  if (!made.answer.converged) {
    return failure(*this, made.answer.problems, loaded);
  }
  std::vector<model::Diagnostic> problems = made.problems;
  std::string written;
  std::string pdf_file;
  if (!output.is_stdout()) {
    if (const auto problem = writing_problem(output, made.html)) {
      return failure(*this, {*problem}, {});
    }
    written = fmt::format("wrote {}\n", output.file);
  }
  if (pdf) {
    if (const auto problem = write_pdf(*this, made.html, units_for(farm))) {
      problems.push_back(*problem);
    } else {
      pdf_file = pdf_beside(output.file);
      written += fmt::format("wrote {}\n", pdf_file);
    }
  }
  CommandResult result;
  if (!problems.empty()) {
    result = failure(*this, problems, loaded);  // what can be had without it stands written
  } else {
    result.code = made.amiss ? ExitCode::Amiss : ExitCode::NothingAmiss;
    if (json) {
      result.out = report_json(farm, made, output.file, pdf_file, units_for(farm));
    }
  }
  if (output.is_stdout()) {
    result.out = made.html;
  }
  result.err = problems_text(loaded.problems, loaded) + result.err + written;
  return result;
}

}  // namespace leat::render
