#include "model/keys/creek.h"

#include "model/keys/open_water.h"
#include "model/keys/place_keys.h"

namespace leat::model {

const Keys<Creek>& creek_keys() {
  static const Keys<Creek> keys(
      {"creek", "A creek, or a pool in one."},
      {surface_key<Creek>({.examples = {"118 ft", "36 m"},
                           .told = "level of the water; may vary by month, or a record"}),
       intake_key<Creek>(
           {.examples = {"117 ft", "35.7 m"},
            .told = "level of the mouth of pipes that start here; not above its highest surface",
            .if_absent = "the path's start, else at the surface"}),
       key<Creek>(
           "flow",
           flow_or_record(&Creek::flow, &Creek::yield_record),
           {.sentence = "What the creek carries: one value, by month, or a CSV file of dates.",
            .examples = {"100 gal/min", "400 L/min"},
            .told = "what the creek carries; may vary by month, or a record",
            .if_absent = "taking more is not flagged"}),
       key<Creek>(
           "spare",
           flow_or_record(&Creek::spare, &Creek::spare_record),
           {.sentence = "What may be taken: one value, by month, or a CSV file of dates. More is "
                        "flagged, not prevented.",
            .examples = {"12 gal/min", "40 L/min"},
            .told = "what may be taken; may vary by month, or a record. Taking more is flagged, "
                    "never prevented",
            .if_absent = "not flagged"})},
      {},
      &place_keys());
  return keys;
}

Creek read_creek(const MapReader& map, LoadContext& context) {
  Creek creek;
  const SoundKeys sound = creek_keys().read(map, creek, context);
  check_intake(map, creek, sound, context.problems);
  return creek;
}

}  // namespace leat::model
