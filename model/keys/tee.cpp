#include "model/keys/tee.h"

#include "model/keys/kinds.h"
#include "model/keys/place_keys.h"

namespace leat::model {

const Keys<Tee>& tee_keys() {
  static const Keys<Tee> keys(
      {"tee", "A tee."},
      {key<Tee>("elevation",
                level(&Tee::elevation),
                {.sentence = "Level of the tee.",
                 .examples = {"112 ft", "34 m"},
                 .required = "112 ft",
                 .told = "its level"}),
       key<Tee>("leaks",
                truth(&Tee::leaks),
                {.sentence = "yes: its joints may draw air in where there is suction.",
                 .told = "yes: a joint that is known to leak; it draws air where the line sucks",
                 .if_absent = "no"})},
      {},
      &place_keys());
  return keys;
}

}  // namespace leat::model
