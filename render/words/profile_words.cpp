#include "render/words/profile_words.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/words/valve_word.h"

namespace leat::render {

namespace {

using solver::ProfileMark;

/// The word for the kind of the place of that name; empty where there is none.
std::string kind_of(const model::Farm& farm, const std::string& name) {
  const auto place = model::place_named(farm, name);
  return place ? model::kind_word(farm.places[*place]) : "";
}

std::string valve_words(const model::Valve& valve) {
  const std::string type = valve_word(valve.type);
  if (valve.shut) {
    return type + ", shut";
  }
  return valve.open < 1.0 ? type + ", part open" : type;
}

}  // namespace

std::string run_words(const model::Farm& farm, const solver::Profile& profile) {
  const std::string& from = farm.places[profile.legs.front().leg.start_place(farm)].name;
  const std::string& to = farm.places[profile.legs.back().leg.end_place(farm)].name;
  std::string pipes;
  for (const solver::ProfileLeg& leg : profile.legs) {
    pipes += (pipes.empty() ? "" : ", ") + farm.pipes[leg.leg.pipe].name;
  }
  return profile.legs.size() == 1 ? fmt::format("{}, from {} to {}", pipes, from, to)
                                  : fmt::format("{} to {}, over {}", from, to, pipes);
}

std::string mark_word(const model::Farm& farm, const solver::ProfilePoint& point) {
  if (point.mark == ProfileMark::Joint) {
    return kind_of(farm, point.name);
  }
  return solver::word_of(point.mark);
}

std::string mark_words(const model::Farm& farm, const solver::ProfilePoint& point) {
  switch (point.mark) {
    case ProfileMark::Start:
    case ProfileMark::End:
    case ProfileMark::Joint: {
      const std::string kind = kind_of(farm, point.name);
      // "creek tee" says what it is by itself.
      return point.name.find(kind) != std::string::npos ? point.name
                                                        : fmt::format("{} ({})", point.name, kind);
    }
    case ProfileMark::Bleed:
      // A cock opened on a line in suction lets air in instead of out.
      return point.pressure_Pa && *point.pressure_Pa > 0.0 ? "bleed here"
                                                           : "bleed for filling only";
    case ProfileMark::PartFull:
      return "part full from here";
    case ProfileMark::FullAgain:
      return "full again";
    case ProfileMark::Valve:
      return valve_words(*farm.pipes[point.pipe].valve);
    case ProfileMark::Knee:
      return "knee";
    case ProfileMark::None:
    case ProfileMark::Summit:
    case ProfileMark::Vent:
    case ProfileMark::Regulator:
    case ProfileMark::OneWay:
    case ProfileMark::Fitting:
      break;
  }
  return point.name.empty() ? solver::word_of(point.mark) : point.name;
}

const char* summit_word(const solver::ProfileSummit& summit) {
  return summit.is_high_point ? "summit" : "knee";
}

std::string summit_words(const solver::SummitAnswer& summit, model::UnitSystem units) {
  if (!summit.absolute_head_m || !summit.margin_m) {
    return "not running, head unknown";
  }
  if (summit.parted) {
    return "the water parts here, no margin";
  }
  return fmt::format("{} absolute, margin {}",
                     solver::spoken_length(*summit.absolute_head_m, units),
                     solver::spoken_length(*summit.margin_m, units));
}

std::string reach_words(const solver::PartFullReach& reach, model::UnitSystem units) {
  const char* const state =
      reach.running        ? (reach.under_vapour ? "part full under vapour" : "part full under air")
      : reach.under_vapour ? "parted, empty of water"
                           : "empty of water";
  return fmt::format("{} for {} of pipe, {}",
                     state,
                     solver::spoken_length(reach.length_m, units),
                     reach.full_again ? "then full again" : "to the end of the run");
}

std::vector<solver::Finding> findings_on_run(const model::Farm& farm,
                                             const solver::Profile& profile) {
  std::set<std::string> names;
  for (const solver::ProfileLeg& leg : profile.legs) {
    names.insert(farm.pipes[leg.leg.pipe].name);
    names.insert(farm.places[leg.leg.start_place(farm)].name);
    names.insert(farm.places[leg.leg.end_place(farm)].name);
  }
  std::vector<solver::Finding> findings = profile.answer.flags;
  std::erase_if(findings, [&names](const solver::Finding& finding) {
    return names.count(finding.where) == 0;
  });
  return findings;
}

}  // namespace leat::render
