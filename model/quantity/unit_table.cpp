#include "model/quantity/unit_table.h"

#include <array>
#include <cctype>
#include <vector>

#include "model/quantity/conversion.h"
#include "model/quantity/lower_case.h"
#include "model/quantity/quantity.h"

namespace leat::model {
namespace {

constexpr double us_gallon = cubic_metres_per_us_gallon;
constexpr double imperial_gallon = cubic_metres_per_imperial_gallon;
constexpr double cubic_foot = metres_per_foot * metres_per_foot * metres_per_foot;
constexpr double square_feet_per_acre = 43560.0;
constexpr double acre = square_feet_per_acre * metres_per_foot * metres_per_foot;
/// Water column of 1 m at 1000 kg/m3, the usual convention [Pa].
constexpr double metre_of_water = 1000.0 * gravity_m_s2;
/// Conventional mercury of 13 595.1 kg/m3 (ISO 80000-4 gives the millimetre of it) [Pa].
constexpr double inch_of_mercury = 13595.1 * gravity_m_s2 * metres_per_inch;

constexpr std::array units = {
    Unit{"m", UnitKind::Length, 1.0},
    Unit{"cm", UnitKind::Length, 0.01},
    Unit{"mm", UnitKind::Length, 0.001},
    Unit{"km", UnitKind::Length, 1000.0},
    Unit{"ft", UnitKind::Length, metres_per_foot},
    Unit{"in", UnitKind::Length, metres_per_inch},
    Unit{"yd", UnitKind::Length, 3.0 * metres_per_foot},
    Unit{"mi", UnitKind::Length, 5280.0 * metres_per_foot},
    Unit{"L/s", UnitKind::Flow, 0.001},
    Unit{"L/min", UnitKind::Flow, 0.001 / seconds_per_minute},
    Unit{"L/h", UnitKind::Flow, 0.001 / seconds_per_hour},
    Unit{"L/day", UnitKind::Flow, 0.001 / seconds_per_day},
    Unit{"m3/s", UnitKind::Flow, 1.0},
    Unit{"m3/h", UnitKind::Flow, 1.0 / seconds_per_hour},
    Unit{"m3/day", UnitKind::Flow, 1.0 / seconds_per_day},
    Unit{"gal/min", UnitKind::Flow, us_gallon / seconds_per_minute},
    Unit{"gpm", UnitKind::Flow, us_gallon / seconds_per_minute},
    Unit{"gal/h", UnitKind::Flow, us_gallon / seconds_per_hour},
    Unit{"gal/day", UnitKind::Flow, us_gallon / seconds_per_day},
    Unit{"imp gal/min", UnitKind::Flow, imperial_gallon / seconds_per_minute},
    Unit{"imp gal/day", UnitKind::Flow, imperial_gallon / seconds_per_day},
    Unit{"ft3/s", UnitKind::Flow, cubic_foot},
    Unit{"L", UnitKind::Volume, 0.001},
    Unit{"mL", UnitKind::Volume, 1e-6},
    Unit{"m3", UnitKind::Volume, 1.0},
    Unit{"gal", UnitKind::Volume, us_gallon},
    Unit{"imp gal", UnitKind::Volume, imperial_gallon},
    Unit{"ft3", UnitKind::Volume, cubic_foot},
    Unit{"acre-ft", UnitKind::Volume, acre* metres_per_foot},
    Unit{"acre-in", UnitKind::Volume, acre* metres_per_inch},
    Unit{"Pa", UnitKind::Pressure, 1.0},
    Unit{"kPa", UnitKind::Pressure, 1000.0},
    Unit{"bar", UnitKind::Pressure, 1e5},
    Unit{"psi", UnitKind::Pressure, pascals_per_psi},
    Unit{"m water", UnitKind::Pressure, metre_of_water},
    Unit{"ft water", UnitKind::Pressure, metre_of_water* metres_per_foot},
    Unit{"in Hg", UnitKind::Pressure, inch_of_mercury},
    Unit{"C", UnitKind::Temperature, 1.0},
    Unit{"F", UnitKind::Temperature, 1.0 / 1.8, 32.0},
    Unit{"s", UnitKind::Duration, 1.0},
    Unit{"min", UnitKind::Duration, seconds_per_minute},
    Unit{"h", UnitKind::Duration, seconds_per_hour},
    Unit{"day", UnitKind::Duration, seconds_per_day},
    Unit{"m2", UnitKind::Area, 1.0},
    Unit{"ha", UnitKind::Area, 1e4},
    Unit{"acre", UnitKind::Area, acre},
    Unit{"ft2", UnitKind::Area, metres_per_foot* metres_per_foot},
    Unit{"mm/day", UnitKind::DepthRate, 0.001 / seconds_per_day},
    Unit{"in/day", UnitKind::DepthRate, metres_per_inch / seconds_per_day},
    Unit{"m/s", UnitKind::Speed, 1.0},
    Unit{"km/h", UnitKind::Speed, 1000.0 / seconds_per_hour},
    Unit{"mph", UnitKind::Speed, 5280.0 * metres_per_foot / seconds_per_hour},
    Unit{"%", UnitKind::Share, 0.01},
};

bool is_letter(char letter) {
  return std::isalpha(static_cast<unsigned char>(letter)) != 0;
}

/// The spelling with gpm, psi and gal in lower case: the three words whose case is free.
std::string with_free_words_lowered(std::string_view spelling) {
  std::string result;
  for (std::size_t at = 0; at < spelling.size();) {
    std::size_t end = at;
    while (end < spelling.size() && is_letter(spelling[end])) {
      ++end;
    }
    if (end == at) {
      result += spelling[at++];
      continue;
    }
    const std::string_view word = spelling.substr(at, end - at);
    const std::string lower = in_lower_case(word);
    const bool is_free = lower == "gpm" || lower == "psi" || lower == "gal";
    result += is_free ? lower : std::string(word);
    at = end;
  }
  return result;
}

}  // namespace

std::span<const Unit> unit_table() {
  return units;
}

const Unit* find_unit(std::string_view spelling) {
  const std::string wanted = with_free_words_lowered(spelling);
  for (const Unit& unit : units) {
    if (unit.spelling == wanted) {
      return &unit;
    }
  }
  return nullptr;
}

const Unit* find_unit_in_any_case(std::string_view spelling) {
  const std::string wanted = in_lower_case(spelling);
  for (const Unit& unit : units) {
    if (in_lower_case(unit.spelling) == wanted) {
      return &unit;
    }
  }
  return nullptr;
}

std::string_view kind_with_article(UnitKind kind) {
  switch (kind) {
    case UnitKind::Length:
      return "a length";
    case UnitKind::Flow:
      return "a flow";
    case UnitKind::Volume:
      return "a volume";
    case UnitKind::Area:
      return "an area";
    case UnitKind::Pressure:
      return "a pressure";
    case UnitKind::Temperature:
      return "a temperature";
    case UnitKind::Duration:
      return "a time";
    case UnitKind::DepthRate:
      return "a depth a day";
    case UnitKind::Speed:
      return "a speed";
    case UnitKind::Share:
      return "a share";
  }
  return "";
}

UsualUnits usual_units(UnitKind kind) {
  switch (kind) {
    case UnitKind::Length:
      return {"ft", "m"};
    case UnitKind::Flow:
      return {"gal/min", "L/min"};
    case UnitKind::Volume:
      return {"gal", "L"};
    case UnitKind::Area:
      return {"ft2", "m2"};
    case UnitKind::Pressure:
      return {"psi", "kPa"};
    case UnitKind::Temperature:
      return {"F", "C"};
    case UnitKind::Duration:
      return {"h", "min"};
    case UnitKind::DepthRate:
      return {"in/day", "mm/day"};
    case UnitKind::Speed:
      return {"mph", "m/s"};
    case UnitKind::Share:
      return {"%", "%"};
  }
  return {"", ""};
}

std::string units_of(UnitKind kind) {
  std::vector<std::string_view> spellings;
  for (const Unit& unit : units) {
    if (unit.kind == kind) {
      spellings.push_back(unit.spelling);
    }
  }
  std::string list;
  for (std::size_t i = 0; i < spellings.size(); ++i) {
    if (i > 0) {
      list += i + 1 == spellings.size() ? " or " : ", ";
    }
    list += spellings[i];
  }
  return list;
}

}  // namespace leat::model
