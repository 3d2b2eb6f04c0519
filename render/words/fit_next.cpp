#include "render/words/fit_next.h"

#include <algorithm>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "model/quantity/spoken_amount.h"
#include "render/words/fit_causes.h"

namespace leat::render {

namespace {

using Kind = model::Measurement::Kind;

/// A flow, pressure or level as it is read.
std::string spoken_reading(Kind kind, double value, model::UnitSystem units) {
  switch (kind) {
    case Kind::Flow:
      return solver::spoken_flow(value, units);
    case Kind::Pressure:
      return solver::spoken_pressure(value, units);
    case Kind::Level:
      return solver::spoken_level(value, units);
  }
  return "";
}

std::string spot_name(const model::Farm& farm, const solver::ReadingSpot& spot) {
  const model::Place& place = farm.places[spot.place];
  if (spot.kind == Kind::Pressure) {
    return fmt::format("the pressure at {}", place.name);
  }
  if (model::is_spring(place)) {
    return fmt::format("all the water that {} gives", place.name);
  }
  return fmt::format("the flow at {}", place.name);
}

std::string look_at(const model::Farm& farm, const solver::FitSite& site) {
  const std::string where = where_of(farm, site);
  switch (site.kind) {
    case solver::CauseKind::BlockedScreen:
      return fmt::format("the screen at the start of {}", where);
    case solver::CauseKind::KinkedPipe:
    case solver::CauseKind::SiltedPipe:
      return fmt::format("{} along its length", where);
    case solver::CauseKind::TrappedAir:
      return fmt::format("the high point of {} (bleed it)", where);
    case solver::CauseKind::ValveNotOpen:
      return fmt::format("the valve of {}", where);
    case solver::CauseKind::LevelWrong:
      return fmt::format("the level of {}", where);
    case solver::CauseKind::PipeEndWrong:
      return fmt::format("the level at which {} ends", where);
    case solver::CauseKind::WaterColder:
      return "the water's temperature";
    case solver::CauseKind::SpringWeaker:
      return fmt::format("the yield of {}", where);
    case solver::CauseKind::LeakAtTee:
      return fmt::format("{} for a leak", where);
  }
  return "";
}

/// What is to be seen there: water, or what a gauge shows of pressure or suction.
std::string reading_to_see(Kind kind,
                           const solver::ExpectedReading& expected,
                           model::UnitSystem units) {
  switch (expected.shows) {
    case solver::Shows::MostSuction:
      return fmt::format("all the suction water bears, {}, as it parts there,",
                         solver::spoken_pressure(-expected.value, units));
    case solver::Shows::Suction:
      return fmt::format("about {} of suction", solver::spoken_pressure(-expected.value, units));
    case solver::Shows::Reading:
      break;
  }
  return "about " + spoken_reading(kind, expected.value, units);
}

/// Which of the listed it is: "number 2", or where in a row that stands for several spots.
std::string which_of(const model::Farm& farm,
                     const solver::FitResult& result,
                     const solver::TellingReading& telling,
                     const solver::ExpectedReading& one) {
  const auto of_its_entry = std::count_if(
      telling.expected.begin(), telling.expected.end(), [&](const solver::ExpectedReading& other) {
        return other.entry == one.entry;
      });
  const std::string number = fmt::format("number {}", one.entry + 1);
  if (of_its_entry == 1) {
    return number;
  }
  const std::string where = where_of(farm, result.entries[one.entry].causes[one.cause].site);
  const bool is_all = static_cast<std::size_t>(of_its_entry) == telling.expected.size();
  return is_all ? "at " + where : number + " at " + where;
}

/// The step in words.
class StepWriter {
 public:
  StepWriter(const model::Farm& farm, const solver::FitAnswer& answer, model::UnitSystem units)
      : farm_(farm), answer_(answer), units_(units) {}

  std::string operator()(const solver::MeasureFlows&) const {
    return "measure the flow at each trough, outlet and pond end with a bucket and a watch, three "
           "times each, and write it under 'measured'";
  }
  std::string operator()(const solver::NothingMore&) const {
    return "no more is needed, as the readings and the file agree";
  }
  std::string operator()(const solver::MeasureAgain&) const {
    return "measure again, then the pressure at a tee halfway: more than one thing may be wrong";
  }

  std::string operator()(const solver::TakeReading& step) const {
    const solver::TellingReading& telling = step.reading;
    std::vector<std::pair<std::string, std::string>> told;  // what is read, and of which it is so
    bool has_suction = false;
    for (const solver::ExpectedReading& one : telling.expected) {
      has_suction = has_suction || one.shows != solver::Shows::Reading;
      const std::string reading = reading_to_see(telling.spot.kind, one, units_);
      const std::string which = which_of(farm_, answer_.result, telling, one);
      const auto same = std::find_if(
          told.begin(), told.end(), [&](const auto& known) { return known.first == reading; });
      if (same == told.end()) {
        told.emplace_back(reading, which);
      } else {
        same->second += " or " + which;
      }
    }
    std::string text = fmt::format("measure {}", spot_name(farm_, telling.spot));
    for (std::size_t i = 0; i < told.size(); ++i) {
      text += fmt::format("{}{} if it is {}", i == 0 ? ": " : ", ", told[i].first, told[i].second);
    }
    return has_suction ? text + "; that takes a gauge that reads suction too" : text;
  }

  std::string operator()(const solver::LookAt& step) const {
    std::string text = step.sites.size() > 1
                           ? "no other flow or pressure here tells them apart: look at "
                           : "look at ";
    for (std::size_t i = 0; i < step.sites.size(); ++i) {
      text += (i == 0 ? "" : ", then ") + look_at(farm_, step.sites[i]);
    }
    if (step.halved) {
      text +=
          fmt::format("; a gauge let into {} halfway shows on which side of it the head is lost",
                      farm_.pipes[*step.halved].name);
    }
    return text;
  }

 private:
  const model::Farm& farm_;
  const solver::FitAnswer& answer_;
  model::UnitSystem units_;
};

}  // namespace

std::string fit_next(const model::Farm& farm,
                     const solver::FitAnswer& answer,
                     model::UnitSystem units) {
  return std::visit(StepWriter(farm, answer, units), answer.next);
}

CopyProblem copy_problem(const model::Farm& farm,
                         const solver::FitAnswer& answer,
                         const solver::CopyWithCause& copy) {
  switch (*copy.refusal) {
    case solver::CopyRefusal::NothingExplains:
      return {"no cause explains the readings, so none is written", "see leat fit"};
    case solver::CopyRefusal::NotSound:
      return {fmt::format("the copy would not be a sound farm: {}", copy.problem),
              "change that by hand as well"};
    case solver::CopyRefusal::ReadsOtherwise:
      return {"the copy would not give what the fit gave", "change the file by hand"};
    case solver::CopyRefusal::CannotBeWritten:
      break;
  }
  const solver::FitEntry& first = answer.result.entries.front();
  return {fmt::format("{} at {} cannot be written into a farm file",
                      names_of(first),
                      fmt::join(places_of(farm, first), ", ")),
          "mend it on the ground, then measure again"};
}

}  // namespace leat::render
