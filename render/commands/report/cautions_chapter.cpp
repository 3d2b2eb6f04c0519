#include <algorithm>
#include <variant>

#include "render/commands/report/chapters.h"
#include "render/words/cautions.h"

namespace leat::render::report {

namespace {

template <class Kind>
bool has_place(const model::Farm& farm) {
  return std::any_of(farm.places.begin(), farm.places.end(), [](const model::Place& place) {
    return std::holds_alternative<Kind>(place.data);
  });
}

/// Offices have other names in every country: what they keep watch over is said instead. Common
/// practice, no source.
Facts whom_to_ask(const model::Farm& farm) {
  Facts facts;
  const auto add_if = [&facts](bool applies, const char* who, const char* what) {
    if (applies) {
      facts.rows.emplace_back(who, what);
    }
  };
  add_if(has_place<model::Spring>(farm) || has_place<model::Creek>(farm),
         "The office for water rights",
         "whether this water may be taken, how much, in which months, and what is to be recorded");
  add_if(has_place<model::Creek>(farm),
         "The office for streams and fish",
         "before anything is laid, dug or dammed in a creek or on its banks");
  add_if(has_place<model::Pond>(farm),
         "The dam-safety office",
         "before a bank or spillway is touched or a pond is lowered");
  add_if(!farm.pipes.empty(),
         "The service that marks buried lines",
         "before any digging (in the United States: call 811)");
  add_if(has_place<model::Outlet>(farm),
         "The health office, or a certified laboratory",
         "before anyone drinks of it");
  add_if(!farm.pumps.empty(), "A licensed electrician", "for all wiring near water");
  add_if(std::any_of(farm.places.begin(), farm.places.end(), model::serves_household),
         "A licensed plumber",
         "before anything is joined to a household line");
  add_if(true,
         "The farm extension or conservation office",
         "for a look at the plan by someone who knows the ground");
  add_if(true, "The neighbours", "up and down the water, before it is led elsewhere");
  return facts;
}

}  // namespace

Chapter cautions_chapter(const Subject& subject) {
  Chapter chapter{"cautions", "Cautions, and whom to ask", {}};
  chapter.blocks.emplace_back(
      Listing{Listing::Kind::Unnumbered, cautions_for(subject.farm, subject.answer)});
  chapter.blocks.emplace_back(Subheading{"Whom to ask"});
  chapter.blocks.emplace_back(whom_to_ask(subject.farm));
  chapter.blocks.emplace_back(Subheading{"What this report is worth"});
  chapter.blocks.emplace_back(Paragraph{
      "It is computed from the farm file at its end, and is no better than what was measured. "
      "\"Nothing amiss\" means nothing that leat checks. If the low case says no, the answer is "
      "no. It is not a survey and not a design by a licensed engineer."});
  chapter.blocks.emplace_back(Signature{{"Measured by, date", "Checked on the ground by, date"}});
  return chapter;
}

}  // namespace leat::render::report
