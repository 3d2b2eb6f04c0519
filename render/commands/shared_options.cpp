#include "render/commands/shared_options.h"

#include <array>
#include <utility>

#include <fmt/format.h>

#include "model/farm/month_series.h"
#include "solver/uncertainty/spread.h"

namespace leat::render {

namespace {

constexpr std::array<Choice<solver::LoadCase>, 3> load_cases = {
    {{"needs", solver::LoadCase::Needs},
     {"wide", solver::LoadCase::Wide},
     {"static", solver::LoadCase::Static}}};

/// "us" is read but not offered.
constexpr std::array<Choice<model::UnitSystem>, 3> unit_systems = {
    {{"US", model::UnitSystem::Us},
     {"metric", model::UnitSystem::Metric},
     {"us", model::UnitSystem::Us}}};

}  // namespace

Option units_option(std::optional<model::UnitSystem>& units) {
  Option option = word_option<model::UnitSystem>({"--units"},
                                                 "UNITS",
                                                 "US or metric, instead of the farm's own",
                                                 unit_systems,
                                                 "write US or metric",
                                                 units);
  option.words.pop_back();
  return option;
}

Option month_option(std::optional<model::Month>& month) {
  Option option;
  option.names = {"--month"};
  option.place = ValuePlace::Next;
  option.value = "MONTH";
  option.sentence = "Jan to Dec; the driest month when not given";
  option.words.assign(model::month_names.begin(), model::month_names.end());
  option.put = [&month](const std::string& text) -> std::optional<UsageProblem> {
    month = model::month_named(text);
    if (!month) {
      return bad_value(
          "--month", text, "write Jan, Feb, Mar, Apr, May, Jun, Jul, Aug, Sep, Oct, Nov or Dec");
    }
    return std::nullopt;
  };
  return option;
}

Option verbose_option(std::string sentence, bool& is_verbose) {
  return switch_option({"--verbose"}, std::move(sentence), is_verbose);
}

Option case_option(std::string sentence,
                   std::vector<std::string> offered,
                   solver::LoadCase& load_case) {
  Option option = word_option<solver::LoadCase>({"--case"},
                                                "CASE",
                                                std::move(sentence),
                                                load_cases,
                                                "write needs, wide or static",
                                                load_case);
  option.words = std::move(offered);
  return option;
}

Option any_case_option(MomentAsked& moment) {
  return case_option(
      "needs (the usual), wide or static", {"needs", "wide", "static"}, moment.load_case);
}

Option broken_option(MomentAsked& moment) {
  return name_option({"--broken"}, "TROUGH", "the trough whose float hangs open", moment.broken);
}

solver::SteadyOptions options_of(const MomentAsked& moment) {
  solver::SteadyOptions options;
  options.load_case = moment.load_case;
  options.broken = moment.broken;
  options.month = moment.month;
  return options;
}

Option from_option(std::string sentence, SeasonSpan& span) {
  return date_option({"--from"}, std::move(sentence), span.from);
}

Option to_option(std::string sentence, SeasonSpan& span) {
  return last_date_option({"--to"}, std::move(sentence), span.from, span.to);
}

std::vector<Option> span_options(SeasonSpan& span) {
  return {from_option("first day, 2026-05-01; 1 January if not given", span),
          to_option("last day, 2026-10-31; 31 December if not given", span),
          step_option(
              {"--step"}, "1h (the usual), \"15 min\", \"1 day\": 1 min to 7 days", span.step_s)};
}

Option spread_option(std::string sentence, int usual_draws, SpreadAsked& spread) {
  Option option = whole_number_option<int>(
      {"--spread"}, std::move(sentence), 1, solver::most_draws, spread.draws);
  option.place = ValuePlace::NumberNext;
  option.usual = fmt::format("{}", usual_draws);
  return option;
}

Option seed_option(SpreadAsked& spread) {
  // The largest whole number that JSON carries everywhere.
  constexpr std::uint64_t largest = (std::uint64_t{1} << 53U) - 1;
  return whole_number_option<std::uint64_t>(
      {"--seed"}, "a whole number: other draws (1 when not given)", 0, largest, spread.seed);
}

std::optional<UsageProblem> seed_without_spread(const SpreadAsked& spread) {
  if (spread.seed && !spread.draws) {
    return flags_clash("--seed says nothing without --spread", "write --spread --seed N");
  }
  return std::nullopt;
}

Option replace_option(OutputTarget& output) {
  Option option;
  option.names = {"--replace"};
  option.sentence = "write over an existing file";
  option.put = [&output](const std::string& /*value*/) {
    output.existing = ExistingFile::Replace;
    return std::nullopt;
  };
  return option;
}

std::optional<UsageProblem> both_on_stdout(const Command& command, const OutputTarget& output) {
  if (!output.is_stdout() || command.form() == AnswerForm::Screen) {
    return std::nullopt;
  }
  const char* const flag = command.json ? "--json" : "--csv";
  return flags_clash(fmt::format("{} and -o - would both go to stdout", flag), "");
}

std::optional<UsageProblem> missing_output(const OutputTarget& output,
                                           std::string text,
                                           std::string hint) {
  if (output.is_asked()) {
    return std::nullopt;
  }
  return UsageProblem{std::nullopt, "no-output", std::move(text), std::move(hint)};
}

}  // namespace leat::render
