// The lines of a profile's picture, in the units it shows: the pipe, the grade lines, the zone in
// suction.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "render/pictures/chart/gnuplot_script.h"
#include "solver/profile/profile.h"

namespace leat::render {

/// Points are distance along the run and level, both in ft or m.
struct ProfileLines {
  // Each in pieces: a line ends where nothing is known, and at open water between two pipes.
  std::vector<Polyline> pipe;
  std::vector<Polyline> running;
  std::vector<Polyline> standing;  // static grade line
  std::vector<Polyline> rating;    // only where it matters, and not far above all other lines
  std::vector<Polyline> part_full;
  std::vector<Polyline> suction;  // closed: between the pipe and a running grade line below it
};

/// A length or level in the unit shown.
[[nodiscard]] double shown_length(double metres_long, model::UnitSystem units);

[[nodiscard]] ProfileLines profile_lines(const model::Farm& farm,
                                         const solver::Profile& profile,
                                         model::UnitSystem units);

}  // namespace leat::render
