#include "render/cli/run.h"

#include <cerrno>
#include <exception>
#include <ostream>
#include <system_error>
#include <variant>

#include <fmt/format.h>

#include "render/cli/parse.h"
#include "render/commands/command_result.h"
#include "render/commands/solve/json_report.h"

namespace leat::render {

namespace {

CommandResult usage_failure(const UsageProblem& problem, std::span<const std::string> arguments) {
  CommandResult result;
  result.code = ExitCode::Failed;
  const std::string hint = problem.hint.empty() ? std::string() : fmt::format("; {}", problem.hint);
  result.err = fmt::format("leat: {}{} (try leat --help)\n", problem.text, hint);
  if (asks_for_json(arguments)) {
    model::Diagnostic diagnostic;
    diagnostic.code = problem.code;
    diagnostic.text = problem.text;
    diagnostic.hint = problem.hint;
    result.out = problems_json(problem.command, {diagnostic});
  }
  return result;
}

CommandResult run_guarded(std::span<const std::string> arguments, const Terminal& terminal) {
  CommandResult fault;
  fault.code = ExitCode::Fault;
  try {
    const ParsedCommandLine parsed = parse_command_line(arguments);
    if (const auto* const explanation = std::get_if<Explanation>(&parsed)) {
      return {explanation->text, "", ExitCode::NothingAmiss};
    }
    if (const auto* const problem = std::get_if<UsageProblem>(&parsed)) {
      return usage_failure(*problem, arguments);
    }
    return std::get<std::unique_ptr<Command>>(parsed)->run(terminal);
  } catch (const std::exception& error) {
    fault.err = fmt::format("leat: a fault of the program itself: {}\n", error.what());
  } catch (...) {
    fault.err = "leat: a fault of the program itself\n";
  }
  return fault;
}

/// Whether the last write failed only because nobody reads any more.
bool reader_is_gone(int error) {
  return error == EPIPE || error == EBADF;
}

}  // namespace

int run(std::span<const std::string> arguments,
        std::ostream& out,
        std::ostream& err,
        const Terminal& terminal) {
  const CommandResult result = run_guarded(arguments, terminal);
  errno = 0;
  out.write(result.out.data(), static_cast<std::streamsize>(result.out.size()));
  out.flush();
  const int error = errno;
  err << result.err << std::flush;
  if (result.out.empty() || out.good() || result.code == ExitCode::Fault) {
    return status_of(result.code);
  }
  if (!reader_is_gone(error)) {
    err << fmt::format("leat: the result could not be written in full{}{}; send it elsewhere\n",
                       error == 0 ? "" : ": ",
                       error == 0 ? "" : std::generic_category().message(error))
        << std::flush;
    return status_of(ExitCode::Failed);
  }
  return status_of(result.code == ExitCode::Failed ? ExitCode::Failed : ExitCode::NothingAmiss);
}

}  // namespace leat::render
