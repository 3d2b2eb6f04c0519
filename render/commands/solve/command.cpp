#include "render/commands/solve/command.h"

#include <array>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "render/commands/command_parts.h"
#include "render/commands/solve/csv_report.h"
#include "render/commands/solve/json_report.h"
#include "render/commands/solve/spread_report.h"
#include "render/commands/solve/table_report.h"
#include "render/document/text_table.h"
#include "render/words/audit.h"
#include "render/words/diagnostic_text.h"
#include "solver/audit/audit.h"
#include "solver/steady/steady.h"
#include "solver/uncertainty/spread.h"

namespace leat::render {

namespace {

constexpr std::array<Choice<SolveTable>, 3> solve_tables = {
    {{"places", SolveTable::Places}, {"pipes", SolveTable::Pipes}, {"flags", SolveTable::Flags}}};

TableOptions table_options(const SolveCommand& asked, const model::Farm& farm) {
  return {asked.units_for(farm), asked.verbose ? Detail::Verbose : Detail::Short};
}

std::string table_csv(const SolveCommand& asked,
                      const model::Farm& farm,
                      const solver::SteadyAnswer& answer) {
  switch (asked.table) {
    case SolveTable::Places:
      return places_csv(farm, answer);
    case SolveTable::Pipes:
      return pipes_csv(farm, answer);
    case SolveTable::Flags:
      break;
  }
  return flags_csv(answer.flags, asked.units_for(farm));
}

std::string solved_text(const SolveCommand& asked,
                        const model::Farm& farm,
                        const solver::SteadyAnswer& answer,
                        const Terminal& terminal) {
  switch (asked.form()) {
    case AnswerForm::Json:
      return solve_json(farm, answer, asked.units_for(farm));
    case AnswerForm::Csv:
      return table_csv(asked, farm, answer);
    case AnswerForm::Screen:
      break;
  }
  return solve_table(farm, answer, table_options(asked, farm), terminal);
}

std::string spread_text(const SolveCommand& asked,
                        const model::Farm& farm,
                        const solver::Spread& spread,
                        const Terminal& terminal) {
  switch (asked.form()) {
    case AnswerForm::Json:
      return spread_json(farm, spread, asked.units_for(farm));
    case AnswerForm::Csv:
      return spread_csv(farm, spread);
    case AnswerForm::Screen:
      break;
  }
  const TableOptions table = table_options(asked, farm);
  return solve_table(farm, spread.answer, table, terminal) +
         spread_table(farm, spread, table, terminal);
}

/// Adds the audit's line to a result: below the table, else beside the machine's answer on stderr.
void add_audit(const SolveCommand& asked,
               const model::Farm& farm,
               const solver::SteadyAnswer& answer,
               const Terminal& terminal,
               CommandResult& result) {
  const solver::AuditReport audit = solver::audit_answer(farm, answer);
  if (!audit.holds()) {
    result.code = ExitCode::Failed;
    result.err += fmt::format("leat: {}\n", audit_sentence(audit));
    return;
  }
  if (asked.form() == AnswerForm::Screen) {
    result.out += '\n' + wrapped(audit_sentence(audit), text_width(terminal), 0);
  } else {
    result.err += audit_sentence(audit) + '\n';
  }
}

CommandResult solve_with_spread(const SolveCommand& asked,
                                const model::LoadedFarm& loaded,
                                const Terminal& terminal) {
  const model::Farm& farm = *loaded.farm;
  solver::SpreadOptions options;
  options.steady = options_of(asked.moment);
  options.draws = *asked.spread.draws;
  options.seed = asked.spread.seed_or_usual();
  const solver::Spread spread = solver::spread_of(farm, options);
  if (!spread.answer.converged) {
    return failure(asked, spread.answer.problems, loaded);
  }
  CommandResult result;
  result.code = exit_code_of(spread);
  result.err = problems_text(loaded.problems, loaded);
  result.out = spread_text(asked, farm, spread, terminal);
  if (asked.audit) {
    add_audit(asked, farm, spread.answer, terminal, result);
  }
  return result;
}

CommandResult solve_once(const SolveCommand& asked,
                         const model::LoadedFarm& loaded,
                         const Terminal& terminal) {
  solver::SteadyAnswer answer = solver::solve_steady(*loaded.farm, options_of(asked.moment));
  for (model::Diagnostic& problem : answer.problems) {
    problem = model::placed(loaded, std::move(problem));
  }
  CommandResult result;
  result.code = exit_code_of(answer);
  result.err = problems_text(loaded.problems, loaded);
  if (!answer.converged) {
    result.err += problems_text(answer.problems, loaded);
    if (asked.json) {
      result.out = solve_json(*loaded.farm, answer, asked.units_for(*loaded.farm));
    }
  } else {
    result.out = solved_text(asked, *loaded.farm, answer, terminal);
    if (asked.audit) {
      add_audit(asked, *loaded.farm, answer, terminal, result);
    }
  }
  if (asked.verbose) {
    result.err += iteration_table(answer.report);
  }
  return result;
}

}  // namespace

CommandHead SolveCommand::head() const {
  return {"solve",
          "What every trough, pond and outlet gets, and what is wrong.",
          "  leat solve my-farm.yaml\n  leat solve my-farm.yaml --case static --json\n"};
}

std::vector<Option> SolveCommand::farm_options() {
  return {
      csv_option<SolveTable>(
          "print CSV: --csv=places (the usual), pipes or flags", solve_tables, csv, table),
      any_case_option(moment),
      broken_option(moment),
      verbose_option("print the pipes and the iterations as well", verbose),
      spread_option(
          "how sure the answer is, by N draws (1000 if not given) of the farm as it may be",
          solver::usual_draws,
          spread),
      seed_option(spread),
      switch_option({"--audit"}, "check the answer against the file with laws of its own", audit),
      month_option(moment.month),
      units_option(units)};
}

std::optional<UsageProblem> SolveCommand::check() const {
  if (auto problem = FarmCommand::check()) {
    return problem;
  }
  if (!spread.draws) {
    return seed_without_spread(spread);
  }
  if (moment.load_case == solver::LoadCase::Static) {
    return flags_clash("--spread and --case static cannot both be had",
                       "nothing runs in that case");
  }
  if (csv && table != SolveTable::Places) {
    return flags_clash("--spread has a CSV of places only", "write --csv or --csv=places");
  }
  return std::nullopt;
}

CommandResult SolveCommand::answer(const model::LoadedFarm& loaded,
                                   const Terminal& terminal) const {
  return spread.draws ? solve_with_spread(*this, loaded, terminal)
                      : solve_once(*this, loaded, terminal);
}

}  // namespace leat::render
