#include "model/keys/spring.h"

#include <fmt/format.h>

#include "model/keys/kinds.h"
#include "model/keys/place_keys.h"

namespace leat::model {
namespace {

/// An intake is this far below a spring's overflow unless said otherwise (FORMAT.md).
constexpr Length usual_intake_depth = metres(0.3);

}  // namespace

const Keys<Spring>& spring_keys() {
  static const Keys<Spring> keys(
      {"spring", "A spring box."},
      {key<Spring>("overflow",
                   level(&Spring::overflow),
                   {.sentence = "Level at which the spring box spills.",
                    .examples = {"131.5 ft", "40 m"},
                    .required = "131.5 ft",
                    .told = "level at which the spring box spills"}),
       key<Spring>(
           "yield",
           flow_or_record(&Spring::yield, &Spring::yield_record),
           {.sentence = "What the spring gives: one value, by month, or a CSV file of dates.",
            .examples = {"2.5 gal/min", "1 gal in 16 s", "10 L/min"},
            .required = "9 gal/min",
            .told = "flow; may vary by month, or a record"}),
       key<Spring>(
           "intake",
           level(&Spring::intake),
           {.sentence = "Level of the pipe's mouth; 0.3 m below the overflow unless given.",
            .examples = {"130.5 ft", "39.7 m"},
            .told = "level of the pipe's mouth; not above the overflow",
            .if_absent =
                "where the path of its pipe starts; without a path 0.3 m below the overflow"})},
      {},
      &place_keys());
  return keys;
}

Spring read_spring(const MapReader& map, LoadContext& context) {
  Spring spring;
  const SoundKeys sound = spring_keys().read(map, spring, context);
  spring.intake_assumed = !map.has("intake");
  if (!sound.has("intake")) {
    spring.intake = spring.overflow - usual_intake_depth;
  } else if (sound.has("overflow") && spring.overflow < spring.intake) {
    context.problems.add("intake-above-water",
                         map.find("intake")->position,
                         fmt::format("{} stands above its overflow", map.part("intake")),
                         "the pipe's mouth is below the level at which the box spills");
  }
  return spring;
}

}  // namespace leat::model
