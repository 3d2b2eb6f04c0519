// Options that several commands take, each in one sentence, and what is checked of them together.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "render/commands/command.h"
#include "render/commands/option_kinds.h"
#include "render/commands/output_target.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

[[nodiscard]] Option units_option(std::optional<model::UnitSystem>& units);
[[nodiscard]] Option month_option(std::optional<model::Month>& month);
[[nodiscard]] Option verbose_option(std::string sentence, bool& is_verbose);

/// --case; `offered` are the words that the sentence tells: not every command can do with each.
[[nodiscard]] Option case_option(std::string sentence,
                                 std::vector<std::string> offered,
                                 solver::LoadCase& load_case);

/// The moment that is solved: --case, --broken and --month.
struct MomentAsked {
  solver::LoadCase load_case = solver::LoadCase::Needs;
  std::optional<std::string> broken;  // trough whose float hangs open
  std::optional<model::Month> month;
};
[[nodiscard]] Option any_case_option(MomentAsked& moment);
[[nodiscard]] Option broken_option(MomentAsked& moment);
[[nodiscard]] solver::SteadyOptions options_of(const MomentAsked& moment);

/// The days of a season and its step.
struct SeasonSpan {
  std::optional<model::Date> from;
  std::optional<model::Date> to;
  std::optional<double> step_s;
};
[[nodiscard]] Option from_option(std::string sentence, SeasonSpan& span);
[[nodiscard]] Option to_option(std::string sentence, SeasonSpan& span);
/// All three of them.
[[nodiscard]] std::vector<Option> span_options(SeasonSpan& span);

/// --spread and --seed: draws of the farm as it may be.
struct SpreadAsked {
  std::optional<int> draws;
  std::optional<std::uint64_t> seed;

  [[nodiscard]] std::uint64_t seed_or_usual() const { return seed.value_or(1); }
};
/// `usual_draws` are meant where --spread stands alone.
[[nodiscard]] Option spread_option(std::string sentence, int usual_draws, SpreadAsked& spread);
[[nodiscard]] Option seed_option(SpreadAsked& spread);
[[nodiscard]] std::optional<UsageProblem> seed_without_spread(const SpreadAsked& spread);

[[nodiscard]] Option replace_option(OutputTarget& output);
/// A picture and an answer that would both go to stdout.
[[nodiscard]] std::optional<UsageProblem> both_on_stdout(const Command& command,
                                                         const OutputTarget& output);
/// `text` where OUT must be named and is not (code no-output).
[[nodiscard]] std::optional<UsageProblem> missing_output(const OutputTarget& output,
                                                         std::string text,
                                                         std::string hint);

}  // namespace leat::render
