// What a steady answer tells beside its figures. Sentences: render/words/steady_notes.h.
#pragma once

#include <string>
#include <variant>

#include "solver/answer/load_case.h"

namespace leat::solver {

/// No balance was found for a case nobody asked for: its dangers are not judged.
struct CaseNotJudged {
  LoadCase load_case = LoadCase::Needs;
};

/// Solved again with lines broken and tees open to the air.
struct SolvedAgain {
  int broken_lines = 0;
  int open_tees = 0;
};

/// A float hangs open: what runs there and what of it to waste.
struct FloatHangsOpen {
  std::string trough;
  double runs_m3_s = 0.0;
  double wasted_m3_s = 0.0;
};

/// How far a pond or tank that feeds it can fall.
struct StoreCanFall {
  std::string place;
  double to_m = 0.0;
};

using SteadyNote = std::variant<CaseNotJudged, SolvedAgain, FloatHangsOpen, StoreCanFall>;

}  // namespace leat::solver
