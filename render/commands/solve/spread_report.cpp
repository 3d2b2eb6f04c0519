#include "render/commands/solve/spread_report.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/commands/command_parts.h"
#include "render/commands/solve/answer_json.h"
#include "render/commands/solve/spread_columns.h"
#include "render/words/number_text.h"

namespace leat::render {

namespace {

using solver::InputKind;

/// As many causes are named.
constexpr std::size_t causes_told = 3;
/// A cause of at least half the spread makes most of it.
constexpr double most_of_it = 0.5;

int solved_draws(const solver::Spread& spread) {
  return spread.draws - spread.unsolved;
}

int count_of(double chance, const solver::Spread& spread) {
  return static_cast<int>(std::lround(chance * solved_draws(spread)));
}

/// Who gets water, or asks for it, in some draw, and stores that never give any.
bool is_shown(const model::Place& place, const solver::PlaceSpread& spread) {
  const bool asks = model::takes_from_pipes(place);
  return asks || spread.high_m3_s > solver::still_flow_m3_s ||
         (model::stores_water(place) && spread.low_m3_s > -solver::still_flow_m3_s);
}

std::string of_draws(double chance, const solver::Spread& spread) {
  return fmt::format("{} of {} draws", count_of(chance, spread), solved_draws(spread));
}

/// "may go short: 34 of 100 draws", a sentence each.
std::vector<std::string> chances(const model::Farm& farm,
                                 const solver::Spread& spread,
                                 model::UnitSystem units) {
  std::vector<std::string> sentences;
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    const std::optional<double>& chance = spread.places[i].chance_short;
    if (!chance || count_of(*chance, spread) == 0) {
      continue;
    }
    const bool always = count_of(*chance, spread) == solved_draws(spread);
    sentences.push_back(
        always
            ? fmt::format("{} goes short in every draw.", farm.places[i].name)
            : fmt::format("{} may go short: {}.", farm.places[i].name, of_draws(*chance, spread)));
  }
  for (const solver::SummitSpread& summit : spread.summits) {
    if (count_of(summit.chance_parts, spread) == 0) {
      continue;
    }
    const bool always = count_of(summit.chance_parts, spread) == solved_draws(spread);
    sentences.push_back(fmt::format("The water {} part in {} at {}: {}.",
                                    always ? "does" : "may",
                                    farm.pipes[summit.pipe].name,
                                    solver::spoken_length(summit.at_m, units),
                                    of_draws(summit.chance_parts, spread)));
  }
  return sentences;
}

/// What would narrow the spread.
std::string_view measuring(InputKind kind) {
  switch (kind) {
    case InputKind::PlaceLevel:
    case InputKind::EndLevel:
    case InputKind::PathLevel:
      return "level it again, with a builder's level or a water level";
    case InputKind::Length:
      return "tape it along the pipe itself";
    case InputKind::Bore:
      return "measure the cut end with callipers";
    case InputKind::Roughness:
    case InputKind::Fittings:
    case InputKind::ValveOpening:
    case InputKind::Seat:
      return "measure the flow it lets through, with a bucket and a watch";
    case InputKind::Yield:
      return "fill a bucket at the spring three times, in the dry month";
    case InputKind::Need:
      return "see for some days what the stock really drink";
    case InputKind::AirPressure:
      return "that is the weather, there is nothing to measure";
  }
  return "";
}

std::string percent(double share) {
  return fmt::format("{} %", decimal_text(share * 100.0, 0));
}

}  // namespace

std::string causes_sentence(const std::vector<solver::Cause>& causes, std::string_view of_what) {
  if (causes.empty()) {
    return fmt::format("No one number makes much of {}.",
                       of_what == "the spread" ? "a spread" : of_what);
  }
  const solver::Cause& first = causes.front();
  std::string text = fmt::format("{} of {} comes from the {} ({}): {}.",
                                 first.share >= most_of_it ? "Most" : "The largest part",
                                 of_what,
                                 first.input,
                                 percent(first.share),
                                 measuring(first.kind));
  const std::size_t told = std::min(causes.size(), causes_told);
  for (std::size_t i = 1; i < told; ++i) {
    text += fmt::format(
        "{} {} ({})", i == 1 ? " Then the" : ", the", causes[i].input, percent(causes[i].share));
  }
  return told > 1 ? text + '.' : text;
}

TextTable spread_places(const model::Farm& farm,
                        const solver::Spread& spread,
                        model::UnitSystem units) {
  std::vector<PlaceSpreadRow> rows;
  for (const PlaceSpreadRow& row : place_spread_rows(farm, spread)) {
    if (is_shown(row.place, row.spread)) {
      rows.push_back(row);
    }
  }
  return table_of(place_spread_columns(),
                  {{"how sure that is", "name"},
                   {"low", "low_L_s"},
                   {"likely", "likely_L_s"},
                   {"high", "high_L_s"},
                   {"needs", "need_L_s"},
                   {"draws short",
                    "chance_short",
                    [&](const PlaceSpreadRow& row, model::UnitSystem) {
                      const std::optional<double>& chance = row.spread.chance_short;
                      return chance ? fmt::format("{}", count_of(*chance, spread)) : "-";
                    }}},
                  rows,
                  units);
}

std::vector<std::string> remarks_on_draws(const model::Farm& farm, int unsolved) {
  std::vector<std::string> remarks;
  if (farm.surveyed_with == model::Instrument::Unsaid) {
    remarks.emplace_back(
        "Levels are taken to be good to a hand level where no instrument is named.");
  }
  if (unsolved > 0) {
    remarks.push_back(
        fmt::format("For {} of the draws no balance was found; they are left out.", unsolved));
  }
  return remarks;
}

std::vector<std::string> spread_remarks(const model::Farm& farm, const solver::Spread& spread) {
  std::vector<std::string> remarks{
      fmt::format("By {} draws (seed {}) of the farm as it may be: every level, length, "
                  "roughness, loss, yield and need off by what its measuring leaves "
                  "open. Of 100 draws 5 lie below low and 5 above high.",
                  spread.draws,
                  spread.seed)};
  for (std::string& remark : remarks_on_draws(farm, spread.unsolved)) {
    remarks.push_back(std::move(remark));
  }
  return remarks;
}

std::vector<std::string> spread_sentences(const model::Farm& farm,
                                          const solver::Spread& spread,
                                          model::UnitSystem units) {
  std::vector<std::string> sentences = chances(farm, spread, units);
  sentences.push_back(causes_sentence(spread.causes, "the spread"));
  return sentences;
}

std::string spread_table(const model::Farm& farm,
                         const solver::Spread& spread,
                         const TableOptions& options,
                         const Terminal& terminal) {
  const int width = text_width(terminal);
  std::string text = table_below(spread_places(farm, spread, options.units));
  for (const std::string& remark : spread_remarks(farm, spread)) {
    text += wrapped(remark, width, 0);
  }
  text += '\n';
  for (const std::string& sentence : spread_sentences(farm, spread, options.units)) {
    text += wrapped(sentence, width, 2);
  }
  return text;
}

std::string spread_json(const model::Farm& farm,
                        const solver::Spread& spread,
                        model::UnitSystem units) {
  Json object = head_of_answer("solve", farm, spread.answer);
  object["draws"] = spread.draws;
  object["seed"] = spread.seed;
  object["places"] = json_rows(place_spread_columns(), place_spread_rows(farm, spread));
  object["summits"] = summits_json(farm, spread.summits);
  object["causes"] = causes_json(spread.causes);
  object["flags"] = flag_list(spread.answer.flags, units);
  return json_text(object);
}

std::string spread_csv(const model::Farm& farm, const solver::Spread& spread) {
  return csv_text(place_spread_columns(), place_spread_rows(farm, spread));
}

ExitCode exit_code_of(const solver::Spread& spread) {
  const ExitCode code = exit_code_of(spread.answer);
  const bool low_case_says_no =
      std::any_of(spread.places.begin(),
                  spread.places.end(),
                  [](const solver::PlaceSpread& place) {
                    return place.chance_short && *place.chance_short >= solver::chance_worth_saying;
                  }) ||
      std::any_of(
          spread.summits.begin(), spread.summits.end(), [](const solver::SummitSpread& summit) {
            return summit.chance_parts >= solver::chance_worth_saying;
          });
  return code == ExitCode::NothingAmiss && low_case_says_no ? ExitCode::Amiss : code;
}

}  // namespace leat::render
