#include "render/commands/season/season_spread_report.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/commands/command_parts.h"
#include "render/commands/season/season_columns.h"
#include "render/commands/season/season_report.h"
#include "render/commands/solve/answer_json.h"
#include "render/commands/solve/csv_report.h"
#include "render/commands/solve/spread_report.h"
#include "render/document/json_text.h"
#include "render/words/number_text.h"
#include "render/words/volume_scale.h"

namespace leat::render {

namespace {

using Row = std::vector<std::string>;
using solver::LowLikelyHigh;
using solver::SeasonSpread;

constexpr int volume_decimals = 4;  // as the season's own CSV
constexpr int share_decimals = 4;
constexpr int hour_decimals = 3;
constexpr int length_decimals = 4;

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
  std::vector<Row> rows;
  for (const solver::TroughSpread& trough : spread.troughs) {
    const auto met = [&](double LowLikelyHigh::*which) {
      return trough.met ? percent_text((*trough.met).*which) + " %" : std::string("-");
    };
    rows.push_back(
        {farm.places.at(trough.place).name,
         volume_text(trough.got_m3.low, scale),
         volume_text(trough.got_m3.likely, scale),
         volume_text(trough.got_m3.high, scale),
         met(&LowLikelyHigh::low),
         met(&LowLikelyHigh::likely),
         met(&LowLikelyHigh::high),
         trough.chance_short ? fmt::format("{}", count_of(*trough.chance_short, spread)) : "-"});
  }
  return {{{fmt::format("how sure that is, {}", scale.unit), Align::Left},
           {"got low", Align::Right},
           {"likely", Align::Right},
           {"high", Align::Right},
           {"met low", Align::Right},
           {"likely", Align::Right},
           {"high", Align::Right},
           {"draws short", Align::Right}},
          rows};
}

TextTable days_table(const model::Farm& farm, const SeasonSpread& spread) {
  std::vector<Row> rows;
  for (const solver::TroughSpread& trough : spread.troughs) {
    if (happens(trough.chance_short.value_or(0.0), spread)) {
      rows.push_back({farm.places.at(trough.place).name,
                      day_cell(trough.first_short.early),
                      day_cell(trough.first_short.likely),
                      day_cell(trough.first_short.late),
                      decimal_text(trough.dry_h.low, 0),
                      decimal_text(trough.dry_h.likely, 0),
                      decimal_text(trough.dry_h.high, 0)});
    }
  }
  return {{{"first short", Align::Left},
           {"early", Align::Right},
           {"likely", Align::Right},
           {"late", Align::Right},
           {"hours short low", Align::Right},
           {"likely", Align::Right},
           {"high", Align::Right}},
          rows};
}

TextTable filled_table(const model::Farm& farm, const SeasonSpread& spread) {
  std::vector<Row> rows;
  for (const solver::StoreSpread& pond : spread.ponds) {
    rows.push_back({farm.places.at(pond.place).name,
                    day_cell(pond.filled.early),
                    day_cell(pond.filled.likely),
                    day_cell(pond.filled.late)});
  }
  return {{{"first full", Align::Left},
           {"early", Align::Right},
           {"likely", Align::Right},
           {"late", Align::Right}},
          rows};
}

TextTable stores_table(const model::Farm& farm,
                       const SeasonSpread& spread,
                       model::UnitSystem units) {
  std::vector<Row> rows;
  const auto level = [&](double level_m) {
    return level_number_text(elevation_metres(level_m), units);
  };
  for (const auto* stores : {&spread.tanks, &spread.ponds}) {
    for (const solver::StoreSpread& store : *stores) {
      rows.push_back({farm.places.at(store.place).name,
                      level(store.lowest_m.low),
                      level(store.lowest_m.likely),
                      level(store.lowest_m.high),
                      fmt::format("{}", count_of(store.chance_empty, spread))});
    }
  }
  return {{{fmt::format("lowest level, {}", length_unit(units)), Align::Left},
           {"low", Align::Right},
           {"likely", Align::Right},
           {"high", Align::Right},
           {"draws empty", Align::Right}},
          rows};
}

Json day_json(const std::optional<model::Date>& day) {
  return day ? Json(model::date_text(*day)) : Json(nullptr);
}

Json trough_json(const model::Farm& farm, const solver::TroughSpread& trough) {
  const auto met = [&](double LowLikelyHigh::*which) {
    return trough.met ? json_number((*trough.met).*which) : Json(nullptr);
  };
  Json row;
  row["name"] = farm.places.at(trough.place).name;
  row["low_m3"] = json_number(trough.got_m3.low);
  row["likely_m3"] = json_number(trough.got_m3.likely);
  row["high_m3"] = json_number(trough.got_m3.high);
  row["low_met"] = met(&LowLikelyHigh::low);
  row["likely_met"] = met(&LowLikelyHigh::likely);
  row["high_met"] = met(&LowLikelyHigh::high);
  row["chance_short"] = json_number(trough.chance_short);
  row["early_first_dry"] = day_json(trough.first_short.early);
  row["likely_first_dry"] = day_json(trough.first_short.likely);
  row["late_first_dry"] = day_json(trough.first_short.late);
  row["low_dry_h"] = json_number(trough.dry_h.low);
  row["likely_dry_h"] = json_number(trough.dry_h.likely);
  row["high_dry_h"] = json_number(trough.dry_h.high);
  return row;
}

enum class Stores { Tanks, Ponds };

Json stores_json(const model::Farm& farm,
                 const std::vector<solver::StoreSpread>& stores,
                 Stores kind) {
  Json rows = Json::array();
  for (const solver::StoreSpread& store : stores) {
    Json row;
    row["name"] = farm.places.at(store.place).name;
    row["low_lowest_m"] = json_number(store.lowest_m.low);
    row["likely_lowest_m"] = json_number(store.lowest_m.likely);
    row["high_lowest_m"] = json_number(store.lowest_m.high);
    row["chance_empty"] = json_number(store.chance_empty);
    if (kind == Stores::Ponds) {
      row["early_filled_on"] = day_json(store.filled.early);
      row["likely_filled_on"] = day_json(store.filled.likely);
      row["late_filled_on"] = day_json(store.filled.late);
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

std::string csv_day(const std::optional<model::Date>& day) {
  return day ? model::date_text(*day) : std::string();
}

Row store_heading() {
  return {"name", "low_lowest_m", "likely_lowest_m", "high_lowest_m", "chance_empty"};
}

Row store_cells(const model::Farm& farm, const solver::StoreSpread& store) {
  return {farm.places.at(store.place).name,
          cell_text(store.lowest_m.low, length_decimals),
          cell_text(store.lowest_m.likely, length_decimals),
          cell_text(store.lowest_m.high, length_decimals),
          cell_text(store.chance_empty, share_decimals)};
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
  object["troughs"] = Json::array();
  for (const solver::TroughSpread& trough : spread.troughs) {
    object["troughs"].push_back(trough_json(farm, trough));
  }
  object["tanks"] = stores_json(farm, spread.tanks, Stores::Tanks);
  object["ponds"] = stores_json(farm, spread.ponds, Stores::Ponds);
  object["summits"] = summits_json(farm, spread.summits);
  object["breaks"] = Json::array();
  for (const solver::BreakSpread& line : spread.breaks) {
    Json row;
    row["pipe"] = farm.pipes.at(line.pipe).name;
    row["chance_breaks"] = json_number(line.chance_breaks);
    object["breaks"].push_back(std::move(row));
  }
  object["causes"] = causes_json(spread.causes);
  object["flags"] = flag_list(answer.flags, units);
  return json_text(object);
}

std::string season_spread_troughs_csv(const model::Farm& farm, const SeasonSpread& spread) {
  std::string text = csv_line({"name",
                               "low_m3",
                               "likely_m3",
                               "high_m3",
                               "low_met",
                               "likely_met",
                               "high_met",
                               "chance_short",
                               "early_first_dry",
                               "likely_first_dry",
                               "late_first_dry",
                               "low_dry_h",
                               "likely_dry_h",
                               "high_dry_h"});
  for (const solver::TroughSpread& trough : spread.troughs) {
    const auto met = [&](double LowLikelyHigh::*which) {
      return trough.met ? cell_text((*trough.met).*which, share_decimals) : std::string();
    };
    text += csv_line({farm.places.at(trough.place).name,
                      cell_text(trough.got_m3.low, volume_decimals),
                      cell_text(trough.got_m3.likely, volume_decimals),
                      cell_text(trough.got_m3.high, volume_decimals),
                      met(&LowLikelyHigh::low),
                      met(&LowLikelyHigh::likely),
                      met(&LowLikelyHigh::high),
                      cell_text(trough.chance_short, share_decimals),
                      csv_day(trough.first_short.early),
                      csv_day(trough.first_short.likely),
                      csv_day(trough.first_short.late),
                      cell_text(trough.dry_h.low, hour_decimals),
                      cell_text(trough.dry_h.likely, hour_decimals),
                      cell_text(trough.dry_h.high, hour_decimals)});
  }
  return text;
}

std::string season_spread_tanks_csv(const model::Farm& farm, const SeasonSpread& spread) {
  std::string text = csv_line(store_heading());
  for (const solver::StoreSpread& tank : spread.tanks) {
    text += csv_line(store_cells(farm, tank));
  }
  return text;
}

std::string season_spread_ponds_csv(const model::Farm& farm, const SeasonSpread& spread) {
  Row heading = store_heading();
  heading.insert(heading.end(), {"early_filled_on", "likely_filled_on", "late_filled_on"});
  std::string text = csv_line(heading);
  for (const solver::StoreSpread& pond : spread.ponds) {
    Row cells = store_cells(farm, pond);
    for (const auto& day : {pond.filled.early, pond.filled.likely, pond.filled.late}) {
      cells.push_back(csv_day(day));
    }
    text += csv_line(cells);
  }
  return text;
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
