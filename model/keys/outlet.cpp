#include "model/keys/outlet.h"

#include "model/keys/kinds.h"
#include "model/keys/place_keys.h"

namespace leat::model {

const Keys<Outlet>& outlet_keys() {
  static const Keys<Outlet> keys(
      {"outlet", "An open end: a tap, a hose."},
      {key<Outlet>("level",
                   level(&Outlet::level),
                   {.sentence = "Level of the open end.",
                    .examples = {"110 ft", "33.5 m"},
                    .required = "110 ft",
                    .told = "level of the open end"}),
       key<Outlet>(
           "wished",
           by_month<Flow>(&Outlet::wished, GapRule::Higher),
           {.sentence = "What should come, one value or by month; the outlet is not held to it.",
            .examples = {"2 gal/min", "8 L/min"},
            .told = "flow; may vary by month; fills \"needs\" and \"met\", but the outlet is not "
                    "held to it",
            .if_absent = "nothing wished"}),
       key<Outlet>("opening",
                   quantity(&Outlet::opening, bore_range),
                   {.sentence = "Bore of an orifice at the end; the pipe's own bore unless given.",
                    .examples = {"9 mm", "3/8 in"},
                    .told = "bore of an orifice at the end, at most 3 m",
                    .if_absent = "the pipe's own bore"}),
       key<Outlet>(
           "cd",
           number(&Outlet::discharge_coefficient, discharge_coefficient_range),
           {.sentence = "Discharge coefficient of the opening, 0.01 to 1; 0.61 unless given.",
            .examples = {"0.61"},
            .told = "discharge coefficient of the opening, 0.01 to 1",
            .if_absent = "0.61",
            .is_aside = true}),
       key<Outlet>("household",
                   truth(&Outlet::household),
                   {.sentence = "yes: people's water, which must be kept apart from stock water.",
                    .told = "yes or no: water for the house, which must not be sucked back",
                    .if_absent = "no"})},
      {},
      &place_keys());
  return keys;
}

}  // namespace leat::model
