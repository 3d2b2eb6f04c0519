#include "render/commands/new/starter_file.h"

namespace leat::render {

std::string starter_file() {
  return R"(# A farm for leat. Change the names, levels and lengths to yours, then run
#   leat read my-farm.yaml     to see what was understood
#   leat solve my-farm.yaml    to see what every trough gets
# Every number carries its unit: 120 ft, 36 m, 9 gal/min, 1 gal in 16 s, 55 F.

farm: Starter Farm
show: US                         # units of printed results: US or metric
datum: top of the gate post = 100 ft   # where levels are counted from
site:
  altitude: 1200 ft              # above sea level: gives the air's pressure
  water: 52 F

springs:
  hill spring:
    overflow: 140 ft             # level at which the box spills
    intake: 139 ft               # level of the pipe's mouth in the box
    # What the bucket and the watch say, month by month (or one value). A month
    # left out gets the lower of the two beside it.
    yield: {Jan: 7 gal/min, Apr: 9 gal/min, Jul: 5 gal/min, Aug: 4 gal/min,
            Sep: 5 gal/min}

tees:
  fork: 118 ft                   # where pipes meet: its level

troughs:
  upper trough:
    float: 116 ft                # level of the float valve's outlet
    herd: {dry beef cow: 12}     # or  need: 200 gal/day
    within: 8 h                  # the hours in which stock drink that
  lower trough:
    float: 98 ft
    need: 150 gal/day
    within: 8 h

ponds:
  duck pond: {surface: 95 ft}

pipes:
  main:
    from: hill spring
    to: fork
    size: 1 in SIDR 15, 100 psi  # size and the rating printed on the pipe
    length: 400 ft               # leat pipes lists the sizes
    fittings: [strainer, 2 elbow]   # leat fittings lists them
  to upper:
    from: fork
    to: upper trough
    size: 3/4 in SIDR 15, 100 psi
    length: 150 ft
  to lower:
    from: fork
    to: lower trough
    size: 3/4 in SIDR 15, 100 psi
    length: 250 ft
  to pond:
    from: fork
    to: duck pond
    size: 1/2 in SIDR 15, 100 psi
    length: 300 ft
    ends: 96 ft                  # the pipe's end hangs above the water
    # Throttled at its end, so that the pond takes less than the spring yields.
    valve: {type: gate, open: 1/8, at: end}
)";
}

}  // namespace leat::render
