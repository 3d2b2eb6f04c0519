// One finding: a stable code, where, the figure and its limit, and what its sentence is made of.
#pragma once

#include <optional>
#include <string>

#include "model/farm/farm.h"
#include "solver/answer/finding_detail.h"
#include "solver/answer/load_case.h"

namespace leat::solver {

/// What is found; limits and sources stand in render/OUTPUT.md, "Flag codes".
enum class Code {
  Parted,
  NearVapour,
  BelowVapour,
  Breaks,
  AirIn,
  OverRating,
  Surge,
  Collapse,
  BackSiphonage,
  Starved,
  Dry,
  LowPressure,
  SuctionAtTee,
  AirLeak,
  AirStays,
  IntakeCover,
  Backwards,
  SpareExceeded,
  DrawnDown,
  PartFull,
  Spills,
  CutOff,
  AirDoubtful,
  Silt,
  Freezes,
  Fast,
  NoRating,
  RatingAssumed,
  NoNeed,
  MonthAssumed
};

enum class Severity { Danger, Caution, Note };

/// What a finding's figure and limit measure, both in SI: a ratio, m, Pa, m3/s, m/s, m3.
enum class Measure { Ratio, Length, Pressure, Flow, Velocity, Volume };

struct Finding {
  Code code = Code::Parted;
  Severity severity = Severity::Note;
  std::string where;  // name of the place or pipe
  std::optional<double> value;
  std::optional<double> limit;
  Measure measure = Measure::Ratio;
  LoadCase load_case = LoadCase::Needs;  // it was found in
  std::optional<model::Month> month;     // it holds for; none: that of the answer
  Detail detail;
};

[[nodiscard]] const char* word_of(Code code);          // "parted", "near-vapour", ...
[[nodiscard]] const char* word_of(Severity severity);  // "danger", "caution", "note"

/// Whether a trough or outlet goes short: starved or dry.
[[nodiscard]] bool is_short(Code code);

}  // namespace leat::solver
