#include "render/commands/season/season_spread_report.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/commands/command_parts.h"
#include "render/commands/season/season_report.h"
#include "render/commands/season/season_spread_columns.h"
#include "render/commands/solve/answer_json.h"
#include "render/commands/solve/spread_report.h"
#include "render/words/number_text.h"
#include "render/words/volume_scale.h"

namespace leat::render {

namespace {

using solver::EarlyLikelyLate;
using solver::LowLikelyHigh;
using solver::SeasonSpread;

int solved_draws(const SeasonSpread& spread) {
  return spread.draws - spread.unsolved;
}

int count_of(double chance, const SeasonSpread& spread) {
  return static_cast<int>(std::lround(chance * solved_draws(spread)));
}

bool happens(double chance, const SeasonSpread& spread) {
  return count_of(chance, spread) > 0;
}

bool is_sure(double chance, const SeasonSpread& spread) {
  return count_of(chance, spread) == solved_draws(spread);
}

std::string of_draws(double chance, const SeasonSpread& spread) {
  return fmt::format("{} of {} draws", count_of(chance, spread), solved_draws(spread));
}

std::string day_cell(const std::optional<model::Date>& day) {
  return day ? model::date_text(*day) : "never";
}

/// ", first on 2026-08-20 in the likely case, on 2026-08-09 in the early one".
std::string first_words(const solver::TroughSpread& trough) {
  if (!trough.first_short.early) {
    return "";
  }
  const std::string early = model::date_text(*trough.first_short.early);
  if (trough.first_short.late == trough.first_short.early) {
    return fmt::format(", first on {}", early);
  }
  if (!trough.first_short.likely) {
    return fmt::format(", first on {} in the early case", early);
  }
  const std::string likely = model::date_text(*trough.first_short.likely);
  return trough.first_short.late
             ? fmt::format(
                   ", first on {} in the likely case, on {} in the early and on {} in the "
                   "late one",
                   likely,
                   early,
                   model::date_text(*trough.first_short.late))
             : fmt::format(
                   ", first on {} in the likely case, on {} in the early one", likely, early);
}

void tell_empty(const model::Farm& farm,
                const SeasonSpread& spread,
                const std::vector<solver::StoreSpread>& stores,
                std::vector<std::string>& sentences) {
  for (const solver::StoreSpread& store : stores) {
    const std::string& name = farm.places.at(store.place).name;
    if (happens(store.chance_empty, spread)) {
      sentences.push_back(is_sure(store.chance_empty, spread)
                              ? fmt::format("{} runs down to its lowest mouth in every draw.", name)
                              : fmt::format("{} may run down to its lowest mouth: {}.",
                                            name,
                                            of_draws(store.chance_empty, spread)));
    }
  }
}

std::vector<std::string> chances(const model::Farm& farm,
                                 const SeasonSpread& spread,
                                 model::UnitSystem units) {
  std::vector<std::string> sentences;
  for (const solver::TroughSpread& trough : spread.troughs) {
    const std::string& name = farm.places.at(trough.place).name;
    const double chance = trough.chance_short.value_or(0.0);
    if (happens(chance, spread)) {
      sentences.push_back(
          is_sure(chance, spread)
              ? fmt::format("{} goes short in every draw{}.", name, first_words(trough))
              : fmt::format(
                    "{} may go short: {}{}.", name, of_draws(chance, spread), first_words(trough)));
    }
  }
  tell_empty(farm, spread, spread.tanks, sentences);
  tell_empty(farm, spread, spread.ponds, sentences);
  for (const solver::SummitSpread& summit : spread.summits) {
    if (happens(summit.chance_parts, spread)) {
      sentences.push_back(fmt::format("The water {} part in {} at {}: {}.",
                                      is_sure(summit.chance_parts, spread) ? "does" : "may",
                                      farm.pipes.at(summit.pipe).name,
                                      solver::spoken_length(summit.at_m, units),
                                      of_draws(summit.chance_parts, spread)));
    }
  }
  for (const solver::BreakSpread& line : spread.breaks) {
    const bool sure = is_sure(line.chance_breaks, spread);
    sentences.push_back(
        fmt::format("The siphon from {} {} air and {} until it is primed again: {}.",
                    farm.places.at(farm.pipes.at(line.pipe).from).name,
                    sure ? "draws" : "may draw",
                    sure ? "stops" : "stop",
                    of_draws(line.chance_breaks, spread)));
  }
  return sentences;
}

std::string explained_words(const model::Farm& farm, const solver::ExplainedSpread& explained) {
  switch (explained.what) {
    case solver::ExplainedSpread::What::NeedMet:
      return fmt::format("the spread at {}", farm.places.at(explained.place).name);
    case solver::ExplainedSpread::What::LowestLevel:
      return fmt::format("the spread of the lowest level of {}",
                         farm.places.at(explained.place).name);
    case solver::ExplainedSpread::What::Nothing:
      break;
  }
  return "the spread";
}

TextTable troughs_table(const model::Farm& farm,
                        const SeasonSpread& spread,
                        model::UnitSystem units) {
  double greatest_m3 = 0.0;
  for (const solver::TroughSpread& trough : spread.troughs) {
    greatest_m3 = std::max(greatest_m3, trough.got_m3.high);
  }
  const VolumeScale scale = volume_scale(greatest_m3, units);
  const auto volume = [scale](double LowLikelyHigh::*which) {
    return [scale, which](const TroughSpreadRow& row, model::UnitSystem) {
      return volume_text(row.answer.got_m3.*which, scale);
    };
  };
  return table_of(trough_spread_columns(),
                  {{fmt::format("how sure that is, {}", scale.unit), "name"},
                   {"got low", "low_m3", volume(&LowLikelyHigh::low)},
                   {"likely", "likely_m3", volume(&LowLikelyHigh::likely)},
                   {"high", "high_m3", volume(&LowLikelyHigh::high)},
                   {"met low", "low_met"},
                   {"likely", "likely_met"},
                   {"high", "high_met"},
                   {"draws short",
                    "chance_short",
                    [&](const TroughSpreadRow& row, model::UnitSystem) {
                      const std::optional<double>& chance = row.answer.chance_short;
                      return chance ? fmt::format("{}", count_of(*chance, spread)) : "-";
                    }}},
                  season_rows(farm, spread.troughs),
                  units);
}

/// A column of a day that may never come.
template <class Answer>
Shown<SeasonRow<Answer>> day_shown(const char* heading,
                                   const char* key,
                                   EarlyLikelyLate Answer::*days,
                                   std::optional<model::Date> EarlyLikelyLate::*which) {
  return {heading,
          key,
          [days, which](const SeasonRow<Answer>& row, model::UnitSystem) {
            return day_cell((row.answer.*days).*which);
          },
          Align::Right};
}

TextTable days_table(const model::Farm& farm, const SeasonSpread& spread) {
  std::vector<TroughSpreadRow> rows;
  for (const TroughSpreadRow& row : season_rows(farm, spread.troughs)) {
    if (happens(row.answer.chance_short.value_or(0.0), spread)) {
      rows.push_back(row);
    }
  }
  const auto hours = [](double LowLikelyHigh::*which) {
    return [which](const TroughSpreadRow& row, model::UnitSystem) {
      return decimal_text(row.answer.dry_h.*which, 0);
    };
  };
  const auto first = &solver::TroughSpread::first_short;
  return table_of(trough_spread_columns(),
                  {{"first short", "name"},
                   day_shown("early", "early_first_dry", first, &EarlyLikelyLate::early),
                   day_shown("likely", "likely_first_dry", first, &EarlyLikelyLate::likely),
                   day_shown("late", "late_first_dry", first, &EarlyLikelyLate::late),
                   {"hours short low", "low_dry_h", hours(&LowLikelyHigh::low)},
                   {"likely", "likely_dry_h", hours(&LowLikelyHigh::likely)},
                   {"high", "high_dry_h", hours(&LowLikelyHigh::high)}},
                  rows,
                  farm.show);
}

TextTable filled_table(const model::Farm& farm, const SeasonSpread& spread) {
  const auto filled = &solver::StoreSpread::filled;
  return table_of(pond_spread_columns(),
                  {{"first full", "name"},
                   day_shown("early", "early_filled_on", filled, &EarlyLikelyLate::early),
                   day_shown("likely", "likely_filled_on", filled, &EarlyLikelyLate::likely),
                   day_shown("late", "late_filled_on", filled, &EarlyLikelyLate::late)},
                  season_rows(farm, spread.ponds),
                  farm.show);
}

TextTable stores_table(const model::Farm& farm,
                       const SeasonSpread& spread,
                       model::UnitSystem units) {
  std::vector<StoreSpreadRow> rows = season_rows(farm, spread.tanks);
  for (const StoreSpreadRow& pond : season_rows(farm, spread.ponds)) {
    rows.push_back(pond);
  }
  return table_of(tank_spread_columns(),
                  {{fmt::format("lowest level, {}", length_unit(units)), "name"},
                   {"low", "low_lowest_m"},
                   {"likely", "likely_lowest_m"},
                   {"high", "high_lowest_m"},
                   {"draws empty",
                    "chance_empty",
                    [&](const StoreSpreadRow& row, model::UnitSystem) {
                      return fmt::format("{}", count_of(row.answer.chance_empty, spread));
                    }}},
                  rows,
                  units);
}

}  // namespace

std::vector<TextTable> season_spread_tables(const model::Farm& farm,
                                            const SeasonSpread& spread,
                                            model::UnitSystem units) {
  return {troughs_table(farm, spread, units),
          days_table(farm, spread),
          stores_table(farm, spread, units),
          filled_table(farm, spread)};
}

std::vector<std::string> season_spread_remarks(const model::Farm& farm,
                                               const SeasonSpread& spread) {
  std::vector<std::string> remarks{
      fmt::format("By {} seasons (seed {}) of the farm as it may be: every level, length, "
                  "roughness, loss, yield and need off by what its measuring leaves open, the same "
                  "all season. Of 100 draws 5 lie below low or before early, and 5 above high or "
                  "after late. Yields by month, "
                  "rain, sun and seepage are as written: a drier year is not among the draws.",
                  spread.draws,
                  spread.seed)};
  for (std::string& remark : remarks_on_draws(farm, spread.unsolved)) {
    remarks.push_back(std::move(remark));
  }
  return remarks;
}

std::vector<std::string> season_spread_sentences(const model::Farm& farm,
                                                 const SeasonSpread& spread,
                                                 model::UnitSystem units) {
  std::vector<std::string> sentences = chances(farm, spread, units);
  const bool has_need = std::any_of(
      spread.troughs.begin(), spread.troughs.end(), [](const solver::TroughSpread& trough) {
        return trough.chance_short.has_value();
      });
  const bool none_short =
      std::none_of(spread.troughs.begin(), spread.troughs.end(), [&](const auto& trough) {
        return happens(trough.chance_short.value_or(0.0), spread);
      });
  if (has_need && none_short && solved_draws(spread) > 0) {
    sentences.insert(sentences.begin(),
                     fmt::format("No trough goes short in any of {} draws.", solved_draws(spread)));
  }
  const std::string explained = explained_words(farm, spread.explained);
  if (spread.explained.what == solver::ExplainedSpread::What::Nothing) {
    return sentences;  // nothing spreads that anybody asks for
  }
  sentences.push_back(
      spread.causes.empty()
          ? fmt::format("So few seasons do not tell which number makes most of {}.", explained)
          : causes_sentence(spread.causes, explained));
  return sentences;
}

std::string season_spread_table(const model::Farm& farm,
                                const SeasonSpread& spread,
                                const TableOptions& options,
                                const Terminal& terminal) {
  const int width = text_width(terminal);
  std::string text;
  for (const TextTable& table : season_spread_tables(farm, spread, options.units)) {
    text += table_below(table);
  }
  for (const std::string& remark : season_spread_remarks(farm, spread)) {
    text += wrapped(remark, width, 0);
  }
  std::string sentences;
  for (const std::string& sentence : season_spread_sentences(farm, spread, options.units)) {
    sentences += wrapped(sentence, width, 2);
  }
  return sentences.empty() ? text : text + '\n' + sentences;
}

std::string season_spread_json(const model::Farm& farm,
                               const SeasonSpread& spread,
                               model::UnitSystem units) {
  const solver::SeasonAnswer& answer = spread.answer;
  Json object;
  object["format"] = 1;
  object["command"] = "season";
  object["farm"] = farm.name;
  object["from"] = model::date_text(answer.from);
  object["to"] = model::date_text(answer.to);
  object["step_s"] = json_number(answer.step_s);
  object["converged"] = answer.converged;
  object["draws"] = spread.draws;
  object["seed"] = spread.seed;
  object["troughs"] = json_rows(trough_spread_columns(), season_rows(farm, spread.troughs));
  object["tanks"] = json_rows(tank_spread_columns(), season_rows(farm, spread.tanks));
  object["ponds"] = json_rows(pond_spread_columns(), season_rows(farm, spread.ponds));
  object["summits"] = summits_json(farm, spread.summits);
  object["breaks"] = json_rows(break_spread_columns(), season_rows(farm, spread.breaks));
  object["causes"] = causes_json(spread.causes);
  object["flags"] = flag_list(answer.flags, units);
  return json_text(object);
}

std::string season_spread_troughs_csv(const model::Farm& farm, const SeasonSpread& spread) {
  return csv_text(trough_spread_columns(), season_rows(farm, spread.troughs));
}

std::string season_spread_tanks_csv(const model::Farm& farm, const SeasonSpread& spread) {
  return csv_text(tank_spread_columns(), season_rows(farm, spread.tanks));
}

std::string season_spread_ponds_csv(const model::Farm& farm, const SeasonSpread& spread) {
  return csv_text(pond_spread_columns(), season_rows(farm, spread.ponds));
}

ExitCode exit_code_of(const SeasonSpread& spread) {
  const ExitCode code = exit_code_of(spread.answer.converged, spread.answer.flags);
  const auto says_no = [](double chance) { return chance >= solver::chance_worth_saying; };
  const bool low_case_says_no =
      std::any_of(spread.troughs.begin(),
                  spread.troughs.end(),
                  [&](const auto& trough) { return says_no(trough.chance_short.value_or(0.0)); }) ||
      std::any_of(spread.summits.begin(),
                  spread.summits.end(),
                  [&](const auto& summit) { return says_no(summit.chance_parts); }) ||
      std::any_of(spread.breaks.begin(), spread.breaks.end(), [&](const auto& line) {
        return says_no(line.chance_breaks);
      });
  return code == ExitCode::NothingAmiss && low_case_says_no ? ExitCode::Amiss : code;
}

}  // namespace leat::render
