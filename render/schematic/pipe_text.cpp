#include "render/schematic/pipe_text.h"

#include <cctype>
#include <cmath>
#include <numeric>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "model/quantity.h"
#include "render/number_text.h"
#include "render/schematic/attention.h"
#include "render/schematic/figure_text.h"

namespace leat::render {
namespace {

/// A number stays with the word it belongs to: "1 in", "SDR 11", "100 psi".
std::string kept_together(const std::string& size) {
  std::string text;
  for (std::size_t i = 0; i < size.size(); ++i) {
    const bool after_digit = i > 0 && std::isdigit(static_cast<unsigned char>(size[i - 1])) != 0;
    const bool before_digit =
        i + 1 < size.size() && std::isdigit(static_cast<unsigned char>(size[i + 1])) != 0;
    const bool new_fact = i > 0 && size[i - 1] == ',';
    // "PE100 SDR": a digit that ends a word's name is no number of its own.
    const std::size_t word = size.rfind(' ', i == 0 ? 0 : i - 1);
    const std::size_t first = word == std::string::npos ? 0 : word + 1;
    const bool number_before =
        after_digit && std::isdigit(static_cast<unsigned char>(size[first])) != 0 &&
        !(i + 1 < size.size() && std::isupper(static_cast<unsigned char>(size[i + 1])) != 0);
    const bool keep = size[i] == ' ' && !new_fact && (number_before || before_digit);
    text += keep ? "\u00A0" : std::string(1, size[i]);
  }
  return text;
}

/// The size as the farmer wrote it; the bore where only that was given.
std::string size_words(const model::PipeSize& size, model::UnitSystem units) {
  return size.text.empty()
             ? fmt::format("bore {}\u00A0{}", bore_number_text(size.bore, units), bore_unit(units))
             : kept_together(size.text);
}

std::string place_words(const model::Placement& place, model::UnitSystem units) {
  using Where = model::Placement::Where;
  switch (place.where) {
    case Where::Spread:
      return "";
    case Where::Start:
      return " at start";
    case Where::End:
      return " at end";
    case Where::AtDistance:
      return " at " + length_figure(in_metres(place.distance), units);
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
    return fmt::format("{}/{} open", whole / divisor, 8L / divisor);
  }
  return fmt::format("{} % open", short_number(100.0 * valve.open));
}

std::string fittings_line(const model::Pipe& pipe, model::UnitSystem units) {
  std::vector<std::string> parts;
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
    parts.push_back("vent at " + length_figure(in_metres(vent.distance), units));
  }
  if (pipe.one_way) {
    parts.emplace_back("one-way");
  }
  return fmt::format("{}", fmt::join(parts, "; "));
}

/// The summit's level and margin; empty where the pipe has none, or none that sees suction.
std::string summit_line(const solver::PipeAnswer& seen,
                        const solver::SteadyAnswer& answer,
                        model::UnitSystem units) {
  if (!seen.summit) {
    return "";
  }
  const solver::SummitAnswer& summit = *seen.summit;
  const double air_head_m = answer.air_pressure_Pa / (answer.density_kg_m3 * gravity_m_s2);
  const bool is_in_suction = summit.absolute_head_m && *summit.absolute_head_m < air_head_m - 0.01;
  if (!is_in_suction && !summit.parted) {
    return "";
  }
  std::string text = "summit " + level_figure(summit.elevation_m, units);
  if (summit.parted) {
    text += ", water parts";
  } else if (summit.margin_m) {
    text += ", margin " + length_figure(*summit.margin_m, units);
  }
  return text;
}

std::string flow_line(const solver::PipeAnswer& seen, model::UnitSystem units) {
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
  constexpr double still_m3_s = 1e-9;
  return std::abs(seen.flow_m3_s) < still_m3_s;
}

BoxText pipe_text(const model::Farm& farm,
                  const solver::SteadyAnswer& answer,
                  std::size_t pipe,
                  model::UnitSystem units) {
  const model::Pipe& line = farm.pipes.at(pipe);
  const solver::PipeAnswer& seen = answer.pipes.at(pipe);
  BoxText text{line.name, {}, {}};
  add_line(text.facts,
           size_words(line.size, units) + ", " + length_figure(in_metres(line.length), units));
  const bool broken =
      answer.places.at(line.from).state == solver::PlaceState::Breaks && is_still(seen);
  add_line(text.facts, broken ? "broken siphon, no water" : flow_line(seen, units));
  add_line(text.facts, fittings_line(line, units));
  add_line(text.facts, summit_line(seen, answer, units));
  add_line(text.facts, suction_line(seen, units));
  add_line(text.attention, state_line(seen, units));
  for (const std::string& words : attention_at(line.name, seen.state, answer).words) {
    add_line(text.attention, words);
  }
  return text;
}

}  // namespace leat::render
