// What a finding tells beside its figure and limit: one struct a sentence, values only. Names are
// those of the file; figures are SI. Of a season: season_detail.h. Sentences:
// render/words/finding_themes.h.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "solver/answer/reason.h"
#include "solver/answer/season_detail.h"

namespace leat::solver {

/// A point of a pipe: how far along it, as the file writes distances, and its level.
struct PipeSpot {
  double at_m = 0.0;
  double elevation_m = 0.0;
};

/// A spring is drawn down and air stops the siphon; the figure: the high point above the intake.
struct SiphonBreaks {
  std::string pipe;  // that leaves the spring
  std::string high_pipe;
  double high_at_m = 0.0;
};

/// A tee above the grade line draws air; the figure: the head there above the tee.
struct TeeDrawsAir {
  std::string open_end;
};

/// The water parts; the figure: the margin.
struct SummitParts {
  PipeSpot summit;
  bool in_storm = false;             // only when a storm lowers the air's pressure
  std::optional<double> lowering_m;  // by which the summit holds; none: lowering does not help
};

/// A summit with little left above vapour; the figure: the margin.
struct SummitNearVapour {
  PipeSpot summit;
};

/// Air comes out of the water; the figure: the absolute head.
struct SummitLowPressure {
  PipeSpot summit;
};

/// A tee or an end below vapour or little above it; the figure: the margin.
struct PlaceNearVapour {};

/// A tee above the grade line; the figure: the pressure.
struct TeeInSuction {
  double above_grade_line_m = 0.0;
};

/// A fitting or the valve with a place in suction; the figure: the pressure there.
struct JointInSuction {
  std::optional<std::string> fitting;  // none: the valve
  double at_m = 0.0;
};

/// Fittings without a place on a pipe in suction; the figure: the pipe's lowest pressure.
struct JointsUnplaced {
  double from_m = 0.0;  // the reach in suction
  double to_m = 0.0;
  int fittings = 0;
};

/// With everything shut; the figure: the pressure.
struct OverRating {
  PipeSpot spot;
  double share = 1.0;  // of the rating that it may see
  double rating_Pa = 0.0;
  bool derated = false;               // the rating counts less for warmth
  std::vector<double> tank_levels_m;  // where tanks would break the pressure, from the top
};

/// What shuts: a trough's float or a pipe's valve.
struct Closing {
  enum class Kind { Float, BallValve, GateValve };
  Kind kind = Kind::Float;
  std::string of;  // the trough or pipe
};

/// The knock of what shuts; the figure: standing pressure and knock together.
struct Surge {
  Closing closing;
  double closing_s = 0.0;
  double standing_Pa = 0.0;
  double knock_Pa = 0.0;
  double share = 1.0;  // of the rating that it may see
  double rating_Pa = 0.0;
  bool derated = false;
};

/// The figure: the rating taken.
struct RatingAssumed {
  std::string size;  // as the file writes it
};

/// No knock was worked out; the figure: the velocity.
struct FastWater {};

/// What could not be judged of a pipe; the figure: the pressure with everything shut.
struct StrengthUnknown {
  enum class Rating { Judged, Missing, LostToWarmth };
  Rating rating = Rating::Judged;
  bool knock_unknown = false;
  std::optional<double> suction_Pa;  // that it cannot be judged against
};

/// The figure: what flattens the pipe over what it sees.
struct SuckedFlat {
  double suction_Pa = 0.0;
  double at_m = 0.0;
  double flattens_Pa = 0.0;
};

/// The figure: water over the mouth.
struct ShallowMouth {
  std::string draws_from;
  double velocity_m_s = 0.0;
};

/// The figure: the highest velocity.
struct SiltInDip {
  PipeSpot dip;
};

/// Water runs out of a pipe's end into its start; the figure: the flow, negative.
struct RunsBackwards {
  std::string place;                  // the end it runs out of, else the start it runs into
  bool out_of_end = false;            // the end is open water
  std::optional<double> drains_to_m;  // level to which it can drain the water at the end
};

/// Once the water above falls; the figure: how far the lower water drains, negative. The finding's
/// month is when the upper water is lowest; none: when it is drawn down to the mouth.
struct DrainsBack {
  std::string upper;
  std::string lower;
  double falls_to_m = 0.0;
  double drains_from_m = 0.0;
  double drains_to_m = 0.0;
};

/// A float under water above its line; the figure: the head of the line over it, negative.
struct FloatUnderWater {
  std::string pipe;
};

/// A pond drawn back into a household; the figure: the flow, negative.
struct PondDrawnBack {
  std::string pond;
  std::string pipe;
};

/// A household's line in suction; the figure: the pressure.
struct HouseholdInSuction {
  std::string pipe;
  double at_m = 0.0;
};

/// A trough or an outlet gets too little; the figure: the share met.
struct GoesShort {
  bool is_trough = true;
  double got_m3_s = 0.0;
  double need_m3_s = 0.0;
  Reason reason;
};

/// As `GoesShort`, over the hours of several settings; the figure: the share met.
struct GoesShortOverItsHours {
  double got_m3_s = 0.0;
  double need_m3_s = 0.0;
};

/// The line takes all a spring yields; the figure: the box's level.
struct SpringDrawnDown {
  double taken_m3_s = 0.0;  // 0: the spring yields nothing
  bool at_intake = false;
};

/// The figure: the flow that runs over.
struct Spills {
  bool over_vent = false;  // of a pipe; else of a place
};

/// The figure: the flow taken.
struct TakenFromCreek {
  enum class Limit { Spare, Carried };
  Limit limit = Limit::Spare;
};

/// The figure: the length.
struct RunsPartFull {
  enum class Above { Air, AirAndVapour, Vapour };
  Above above = Above::Air;
};

/// Air behind a high point; the figure: the velocity.
struct TrappedAir {
  /// What pockets hold back when the line is filled from above.
  struct Lock {
    double lifted_m = 0.0;
    double fall_m = 0.0;
  };
  std::optional<std::string> high_tee;  // the high point: a tee ...
  std::string high_pipe;                // ... or a point of a pipe
  PipeSpot high;
  double swept_above_m_s = 0.0;
  bool at_an_average = false;  // floats hold the water back to a day's average
  bool steeper_than_tested = false;
  bool in_suction = false;   // a vent there would let air in
  std::optional<Lock> lock;  // none: pockets hold back nothing
};

/// No open way joins the place to water.
struct CutOffFromWater {};

/// A trough has neither need nor herd.
struct NoNeedGiven {};

/// A neighbouring month's figure was taken for the finding's month.
struct MonthNotMeasured {};

/// Filled to its summit with both ends shut; the figure: the pressure at its lowest point.
struct FilledOverRating {
  double at_m = 0.0;
};

/// The fill pump can give more than the pipe bears; the figure: what it gives, the limit: the most
/// at the lower end.
struct PumpTooStrong {};

using Detail = std::variant<CutOffFromWater,
                            NoNeedGiven,
                            MonthNotMeasured,
                            SiphonBreaks,
                            TeeDrawsAir,
                            SummitParts,
                            SummitNearVapour,
                            SummitLowPressure,
                            PlaceNearVapour,
                            TeeInSuction,
                            JointInSuction,
                            JointsUnplaced,
                            OverRating,
                            Surge,
                            RatingAssumed,
                            FastWater,
                            StrengthUnknown,
                            SuckedFlat,
                            ShallowMouth,
                            SiltInDip,
                            RunsBackwards,
                            DrainsBack,
                            FloatUnderWater,
                            PondDrawnBack,
                            HouseholdInSuction,
                            GoesShort,
                            GoesShortOverItsHours,
                            SpringDrawnDown,
                            Spills,
                            TakenFromCreek,
                            RunsPartFull,
                            TrappedAir,
                            FilledOverRating,
                            PumpTooStrong,
                            LineParts,
                            LineBreaks,
                            LineDrawsAir,
                            ShortInMonth,
                            TakesMoreThanSpare,
                            RunsOver,
                            RunsEmpty,
                            PipeFreezes>;

}  // namespace leat::solver
