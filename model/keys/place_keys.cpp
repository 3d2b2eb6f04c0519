#include "model/keys/place_keys.h"

#include "model/keys/instrument_words.h"
#include "model/keys/kinds.h"
#include "model/keys/map_position_reader.h"

namespace leat::model {
namespace {

bool read_map(const KeyValue& value, Place& place) {
  place.map = read_map_position(value.node, value.what, value.problems());
  return place.map.has_value();
}

}  // namespace

const Keys<Place>& place_keys() {
  static const Keys<Place> keys(
      {},
      {key<Place>(
           "map",
           own(Kind{"map_point"}, read_map),
           {.sentence = "Where it lies: [longitude, latitude] in degrees, such as [10.5, 47.5], or "
                        "[x, y] in metres or feet, such as [12 m, 40 m].",
            .told =
                "`[longitude, latitude]` in degrees (WGS 84, as a phone shows them; south and west "
                "are negative; the longitude comes first), or `[x, y]` with a unit of length, x to "
                "the east and y to the north of a zero of your own, such as the barn corner",
            .if_absent = "-",
            .is_aside = true}),
       key<Place>("surveyed with",
                  word(&Place::surveyed_with, survey_instrument_words),
                  {.sentence = "What its level was taken with; the farm's instrument unless given.",
                   .told = "as at the top, for this place's level",
                   .if_absent = "the farm's",
                   .is_aside = true})});
  return keys;
}

}  // namespace leat::model
