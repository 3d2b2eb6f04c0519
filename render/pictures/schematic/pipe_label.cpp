#include "render/pictures/schematic/pipe_label.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "model/quantity/quantity.h"
#include "render/pictures/schematic/attention.h"
#include "render/pictures/schematic/plain_label.h"
#include "render/words/figure_text.h"
#include "render/words/number_text.h"

namespace leat::render {
namespace {

bool starts_with_digit(std::string_view word) {
  return !word.empty() && word.front() >= '0' && word.front() <= '9';
}

/// Whether the word names the number after it: "SDR" of "SDR 11". "PE100" holds its number already.
bool names_a_number(std::string_view word) {
  return word.find_first_of("0123456789,") == std::string_view::npos;
}

/// Whether the word is what the number before it counts: "mm", "in", "psi" and not "SDR".
bool is_a_unit(std::string_view word) {
  return !word.empty() && word.front() >= 'a' && word.front() <= 'z';
}

/// A number stays with the word it belongs to: "1 in", "SDR 11", "100 psi".
std::string kept_together(std::string_view size) {
  std::string text;
  std::string_view before;
  while (!size.empty()) {
    const std::string_view word = size.substr(0, size.find(' '));
    size.remove_prefix(std::min(word.size() + 1, size.size()));
    const bool belongs = starts_with_digit(word) ? names_a_number(before)
                                                 : starts_with_digit(before) && is_a_unit(word);
    if (!text.empty()) {
      text += belongs ? joined_space : std::string_view(" ");
    }
    text += word;
    before = word;
  }
  return text;
}

/// The size as the farmer wrote it, parted at its commas; the bore where only that was given.
FactLine size_facts(const model::PipeSize& size, model::UnitSystem units) {
  if (size.text.empty()) {
    return {fmt::format("bore {}\u00A0{}", bore_number_text(size.bore, units), bore_unit(units))};
  }
  FactLine facts;
  std::string_view rest = size.text;
  for (std::size_t comma = rest.find(", "); comma != std::string_view::npos;
       comma = rest.find(", ")) {
    facts.push_back(kept_together(rest.substr(0, comma)));
    rest.remove_prefix(comma + 2);
  }
  facts.push_back(kept_together(rest));
  return facts;
}

std::string place_words(const model::Placement& place, model::UnitSystem units) {
  using Where = model::Placement::Where;
  switch (place.where) {
    case Where::Spread:
      return "";
    case Where::Start:
      return " at\u00A0start";
    case Where::End:
      return " at\u00A0end";
    case Where::AtDistance:
      return " at\u00A0" + length_figure(in_metres(place.distance), units);
  }
  return "";
}

std::string fitting_words(const model::Fitting& fitting, model::UnitSystem units) {
  std::string text = fitting.count > 1 ? fmt::format("{}\u00A0", fitting.count) : "";
  text += fitting.name == "k" ? "k " + short_number(fitting.loss_coefficient) : fitting.name;
  return text + place_words(fitting.place, units);
}

/// "3/8 open" where the share is a whole number of eighths, else "40 % open".
std::string opening_words(const model::Valve& valve) {
  if (valve.shut) {
    return "shut";
  }
  const double eighths = valve.open * 8.0;
  const long whole = std::lround(eighths);
  if (whole >= 8) {
    return "open";
  }
  if (whole > 0 && std::abs(eighths - static_cast<double>(whole)) < 1e-6) {
    const long divisor = std::gcd(whole, 8L);
    return fmt::format("{}/{}\u00A0open", whole / divisor, 8L / divisor);
  }
  return fmt::format("{}\u00A0%\u00A0open", short_number(100.0 * valve.open));
}

FactLine fitting_facts(const model::Pipe& pipe, model::UnitSystem units) {
  FactLine parts;
  for (const model::Fitting& fitting : pipe.fittings) {
    parts.push_back(fitting_words(fitting, units));
  }
  if (pipe.valve) {
    const char* const type = pipe.valve->type == model::ValveType::Gate ? "gate" : "ball";
    const std::string place = pipe.valve->place ? place_words(*pipe.valve->place, units) : "";
    parts.push_back(fmt::format("{} valve {}{}", type, opening_words(*pipe.valve), place));
  }
  if (pipe.regulator) {
    const std::string set = pressure_size_figure(in_pascals(pipe.regulator->set), units);
    parts.push_back("regulator set to " + set + place_words(pipe.regulator->place, units));
  }
  for (const model::Vent& vent : pipe.vents) {
    parts.push_back("vent at\u00A0" + length_figure(in_metres(vent.distance), units));
  }
  if (pipe.one_way) {
    parts.emplace_back("one-way");
  }
  return parts;
}

/// The summit's level and margin; none where the pipe has none, or none that sees suction.
FactLine summit_facts(const solver::PipeAnswer& seen,
                      const solver::SteadyAnswer& answer,
                      model::UnitSystem units) {
  if (!seen.summit) {
    return {};
  }
  const solver::SummitAnswer& summit = *seen.summit;
  const double air_head_m = answer.air_pressure_Pa / (answer.density_kg_m3 * gravity_m_s2);
  const bool is_in_suction = summit.absolute_head_m && *summit.absolute_head_m < air_head_m - 0.01;
  if (!is_in_suction && !summit.parted) {
    return {};
  }
  FactLine facts{"summit " + level_figure(summit.elevation_m, units)};
  if (summit.parted) {
    facts.emplace_back("water parts");
  } else if (summit.margin_m) {
    facts.push_back("margin " + length_figure(*summit.margin_m, units));
  }
  return facts;
}

/// Whether the pipe stands empty because it drew air from the spring at its start.
bool is_broken_siphon(const model::Pipe& pipe,
                      const solver::PipeAnswer& seen,
                      const solver::SteadyAnswer& answer) {
  return is_still(seen) && answer.places.at(pipe.from).state == solver::PlaceState::Breaks;
}

std::string flow_line(const model::Pipe& pipe,
                      const solver::PipeAnswer& seen,
                      const solver::SteadyAnswer& answer,
                      model::UnitSystem units) {
  if (is_broken_siphon(pipe, seen, answer)) {
    return "broken siphon, no water";
  }
  return is_still(seen) ? "still" : flow_figure(std::abs(seen.flow_m3_s), units);
}

/// The state in words, empty where the other lines have said it.
std::string state_line(const solver::PipeAnswer& seen, model::UnitSystem units) {
  using solver::PipeState;
  switch (seen.state) {
    case PipeState::Ok:
    case PipeState::Still:  // the flow line says so
    case PipeState::Suction:
      return "";
    case PipeState::PartFull:
      return "part full for " + length_figure(seen.part_full_m, units);
    case PipeState::OverRating:
      return seen.highest_pressure_Pa
                 ? "over rating: " + pressure_size_figure(*seen.highest_pressure_Pa, units)
                 : "over rating";
    case PipeState::Parted:
    case PipeState::NearVapour:
    case PipeState::Backwards:
      return solver::word_of(seen.state);
  }
  return "";
}

std::string suction_line(const solver::PipeAnswer& seen, model::UnitSystem units) {
  constexpr double suction_Pa = -100.0;
  return seen.lowest_pressure_Pa && *seen.lowest_pressure_Pa < suction_Pa
             ? pressure_figure(*seen.lowest_pressure_Pa, units)
             : "";
}

}  // namespace

bool is_still(const solver::PipeAnswer& seen) {
  return std::abs(seen.flow_m3_s) < solver::still_flow_m3_s;
}

BoxText short_pipe_text(const model::Farm& farm,
                        const solver::SteadyAnswer& answer,
                        std::size_t pipe,
                        model::UnitSystem units) {
  const model::Pipe& line = farm.pipes.at(pipe);
  const solver::PipeAnswer& seen = answer.pipes.at(pipe);
  BoxText text{line.name, {}, {}};
  add_facts(text.facts, {flow_line(line, seen, answer, units)});
  if (line.valve) {
    add_facts(text.facts, {"valve " + opening_words(*line.valve)});
  }
  add_line(text.attention, state_line(seen, units));
  return text;
}

BoxText pipe_text(const model::Farm& farm,
                  const solver::SteadyAnswer& answer,
                  std::size_t pipe,
                  model::UnitSystem units) {
  const model::Pipe& line = farm.pipes.at(pipe);
  const solver::PipeAnswer& seen = answer.pipes.at(pipe);
  BoxText text{line.name, {}, {}};
  add_facts(text.facts, size_facts(line.size, units));
  add_facts(text.facts,
            {length_figure(in_metres(line.length), units), flow_line(line, seen, answer, units)});
  add_facts(text.facts, fitting_facts(line, units));
  add_facts(text.facts, summit_facts(seen, answer, units));
  add_facts(text.facts, {suction_line(seen, units)});
  add_line(text.attention, state_line(seen, units));
  for (const std::string& words : attention_at(line.name, seen.state, answer).words) {
    add_line(text.attention, words);
  }
  return text;
}

}  // namespace leat::render
