#include "solver/answer/finding.h"

namespace leat::solver {

const char* word_of(Code code) {
  switch (code) {
    case Code::Parted:
      return "parted";
    case Code::NearVapour:
      return "near-vapour";
    case Code::BelowVapour:
      return "below-vapour";
    case Code::Breaks:
      return "breaks";
    case Code::AirIn:
      return "air-in";
    case Code::OverRating:
      return "over-rating";
    case Code::Surge:
      return "surge";
    case Code::Collapse:
      return "collapse";
    case Code::BackSiphonage:
      return "back-siphonage";
    case Code::Starved:
      return "starved";
    case Code::Dry:
      return "dry";
    case Code::LowPressure:
      return "low-pressure";
    case Code::SuctionAtTee:
      return "suction-at-tee";
    case Code::AirLeak:
      return "air-leak";
    case Code::AirStays:
      return "air-stays";
    case Code::IntakeCover:
      return "intake-cover";
    case Code::Backwards:
      return "backwards";
    case Code::SpareExceeded:
      return "spare-exceeded";
    case Code::DrawnDown:
      return "drawn-down";
    case Code::PartFull:
      return "part-full";
    case Code::Spills:
      return "spills";
    case Code::CutOff:
      return "cut-off";
    case Code::AirDoubtful:
      return "air-doubtful";
    case Code::Silt:
      return "silt";
    case Code::Freezes:
      return "freezes";
    case Code::Fast:
      return "fast";
    case Code::NoRating:
      return "no-rating";
    case Code::RatingAssumed:
      return "rating-assumed";
    case Code::NoNeed:
      return "no-need";
    case Code::MonthAssumed:
      return "month-assumed";
  }
  return "";
}

const char* word_of(Severity severity) {
  switch (severity) {
    case Severity::Danger:
      return "danger";
    case Severity::Caution:
      return "caution";
    case Severity::Note:
      return "note";
  }
  return "note";
}

bool is_short(Code code) {
  return code == Code::Starved || code == Code::Dry;
}

}  // namespace leat::solver
