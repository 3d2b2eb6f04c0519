// The units a farm file may use.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace leat::model {

enum class UnitKind {
  Length,
  Flow,
  Volume,
  Area,
  Pressure,
  Temperature,
  Duration,
  DepthRate,
  Speed,
  Share
};

/// How a unit is made into SI: (value - zero) * factor. `zero` is not 0 only for Fahrenheit.
struct Unit {
  std::string_view spelling;
  UnitKind kind;
  double factor;
  double zero = 0.0;
};

/// Every unit, those of a kind together.
[[nodiscard]] std::span<const Unit> unit_table();

/// The unit with that spelling, or nullptr. Case counts, except in gpm, psi and gal.
[[nodiscard]] const Unit* find_unit(std::string_view spelling);

/// The unit whose spelling differs from this one by case alone, or nullptr. For hints only.
[[nodiscard]] const Unit* find_unit_in_any_case(std::string_view spelling);

/// "a length", "a flow" ...: the kind with its article.
[[nodiscard]] std::string_view kind_with_article(UnitKind kind);

/// The two units hints show for a kind, US first: "ft" and "m".
struct UsualUnits {
  std::string_view us;
  std::string_view metric;
};
[[nodiscard]] UsualUnits usual_units(UnitKind kind);

/// "m, cm, mm, km, ft, in, yd or mi": the units of a kind.
[[nodiscard]] std::string units_of(UnitKind kind);

}  // namespace leat::model
