#include "render/words/improve.h"

#include <cmath>
#include <numeric>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include "model/farm/overload.h"
#include "model/quantity/spoken_amount.h"

namespace leat::render {

namespace {

/// How far open, as a keeper sets it: the stem's travel in sixteenths at the finest ("3/8 open"),
/// the ball's handle by degrees ("35 degrees from open").
std::string opening_words(const solver::SetValve& valve) {
  if (valve.type == model::ValveType::Ball) {
    return fmt::format("{} degrees from open", std::lround((1.0 - valve.open) * 90.0));
  }
  constexpr long parts = 16;
  const long open = std::lround(valve.open * parts);
  const long common = std::gcd(open, parts);
  return fmt::format("{}/{} open", open / common, parts / common);
}

std::string swap_words(const solver::ChangeFitting& swap) {
  using Consequence = solver::ChangeFitting::Consequence;
  const std::string words =
      swap.to.empty() ? fmt::format("take the {} out of {}", swap.from, swap.pipe)
                      : fmt::format("a {} for the {} of {}", swap.to, swap.from, swap.pipe);
  switch (swap.consequence) {
    case Consequence::NeedsOtherPriming:
      return words + " (priming then needs another way to hold the water)";
    case Consequence::MayRunBack:
      return words + " (water may then run back)";
    case Consequence::None:
      break;
  }
  return words;
}

std::string move_words(const solver::MoveLevel& move) {
  using What = solver::MoveLevel::What;
  switch (move.what) {
    case What::FreeEnd:
      return fmt::format("lower the free end of {} by", move.where);
    case What::Float:
      return fmt::format("lower the float of {} by", move.where);
    case What::Trough:
      return fmt::format("stand {} lower, by", move.where);
    case What::Outlet:
      return fmt::format("lower the outlet {} by", move.where);
    case What::CreekIntake:
      return fmt::format("take in {} further up, by", move.where);
    case What::Spring:
      return fmt::format("raise {}, if it bears it, by", move.where);
    case What::Tank:
      return fmt::format("stand {} higher, by", move.where);
  }
  return "";
}

/// Seats are sold by the millimetre; beside it the inch of the farm's other figures.
std::string seat_words(double seat_mm, model::UnitSystem units) {
  return units == model::UnitSystem::Us
             ? fmt::format("{:g} mm ({:.2f} in)", seat_mm, in_inches(millimetres(seat_mm)))
             : fmt::format("{:g} mm", seat_mm);
}

/// "3 of the 8 h" where all troughs drink through the same hours, else "3/8 of the hours".
std::string turn_words(const solver::TakeTurns& turns) {
  return turns.hours ? fmt::format("{:.3g} of the {:.3g} h",
                                   *turns.hours * turns.parts / turns.of_parts,
                                   *turns.hours)
                     : fmt::format("{}/{} of the hours", turns.parts, turns.of_parts);
}

/// "hill then gets 6 L/min (needs 8), low gets 9 L/min".
std::string gets_words(const model::Farm& farm,
                       const std::vector<solver::PlaceShare>& gets,
                       model::UnitSystem units) {
  std::string text;
  for (const solver::PlaceShare& share : gets) {
    text += fmt::format("{}{} {} {}",
                        text.empty() ? "" : ", ",
                        farm.places[share.place].name,
                        text.empty() ? "then gets" : "gets",
                        solver::spoken_flow(share.got_m3_s, units));
    if (share.need_m3_s) {
      text += fmt::format(" (needs {})", solver::spoken_flow_figure(*share.need_m3_s, units));
    }
  }
  return text;
}

}  // namespace

std::string action_words(const solver::Action& action, model::UnitSystem units) {
  return std::visit(
      Overload{
          [](const solver::LayWider& lay) {
            return fmt::format("lay {} in {}", lay.pipe, lay.size);
          },
          [](const solver::LayBeside& lay) {
            return fmt::format("lay a second line beside {}", lay.pipe);
          },
          [](const solver::ChangeFitting& swap) { return swap_words(swap); },
          [](const solver::OpenValve& valve) {
            return fmt::format("open the valve on {} fully", valve.pipe);
          },
          [](const solver::SetValve& valve) {
            return valve.is_new
                       ? fmt::format(
                             "a gate valve at the end of {}, {}", valve.pipe, opening_words(valve))
                       : fmt::format("set the {} valve on {} {}",
                                     valve.type == model::ValveType::Ball ? "ball" : "gate",
                                     valve.pipe,
                                     opening_words(valve));
          },
          [units](const solver::MoveLevel& move) {
            return fmt::format("{} {}", move_words(move), solver::spoken_length(move.by_m, units));
          },
          [units](const solver::ChangeSeat& seat) {
            return fmt::format("a {} seat of {} at {}",
                               seat.is_wider ? "wider" : "smaller",
                               seat_words(seat.seat_mm, units),
                               seat.place);
          },
          [units](const solver::BuildStore& store) {
            return fmt::format("a store of {} at {}, filling day and night",
                               solver::spoken_volume(store.volume_m3, units),
                               store.place);
          },
          [units](const solver::BuildSettlingTank& tank) {
            return fmt::format("a settling tank, {} deep, at {}",
                               solver::spoken_length(tank.depth_m, units),
                               tank.place);
          },
          [units](const solver::BleedAir& air) {
            return air.along_m ? fmt::format("bleed the air at the high point of {}, {} along it",
                                             air.where,
                                             solver::spoken_length(*air.along_m, units))
                               : fmt::format("bleed the air at {}", air.where);
          },
          [](const solver::TakeTurns& turns) {
            return fmt::format("troughs in turn: {} alone for {}, the others shut meanwhile",
                               turns.place,
                               turn_words(turns));
          }},
      action);
}

std::string change_words(const model::Farm& farm,
                         const solver::SolvedChange& change,
                         model::UnitSystem units) {
  const std::string done =
      change.actions.empty() ? std::string() : action_words(change.actions.front(), units);
  return change.gets.empty() ? done : done + ": " + gets_words(farm, change.gets, units);
}

std::string air_words(const model::Farm& farm,
                      const solver::ImprovePlan& plan,
                      const solver::AirLoss& air,
                      model::UnitSystem units) {
  return fmt::format(
      "{}: no figure here counts air; a pocket that fills the leg behind it may leave {} "
      "with {}",
      action_words(air.bleeding, units),
      farm.places[plan.place].name,
      solver::spoken_flow(air.left_m3_s, units));
}

std::string small_change_words(const solver::SmallChange& change, model::UnitSystem units) {
  return std::visit(Overload{[units](const solver::HigherBy& higher) {
                               return fmt::format("{} higher",
                                                  solver::spoken_length(higher.by_m, units));
                             },
                             [](const solver::LaidIn& laid) { return laid.size; },
                             [](const solver::MoreBy& more) {
                               return fmt::format("{:.0f} % more", more.share * 100.0);
                             }},
                    change.by);
}

std::string improve_note(const solver::ImproveNote& note) {
  return std::visit(
      Overload{
          [](const solver::RankedWideOpen& ranked) {
            return fmt::format(
                "{}: ranked by what {} would get with every float wide open",
                ranked.was_asked_for
                    ? fmt::format("{} {}",
                                  ranked.place,
                                  ranked.has_need ? "has its need" : "has no need set")
                    : "nothing goes short",
                ranked.place);
          },
          [](const solver::OnlyPromising& only) {
            return fmt::format(
                "of {} possible changes the {} that promise most to first order were solved",
                only.possible,
                only.solved);
          },
          [](const solver::LeftOut& left) {
            return fmt::format("{} changes found no balance of heads and flows: left out",
                               left.count);
          },
          [](const solver::NoSmallChange&) {
            return std::string(
                "no small change of one number does anything there, or what it does is not known: "
                "only larger ones, as listed");
          }},
      note);
}

model::Diagnostic improve_problem(const solver::ImproveRefusal& refusal, const model::Farm& farm) {
  model::Diagnostic problem;
  problem.file = farm.file;
  std::visit(Overload{[&](const solver::StaticCase&) {
                        problem.code = "static-case";
                        problem.text = "with everything shut nothing runs that could be improved";
                        problem.hint = "take the case needs or wide";
                      },
                      [&](const solver::NoSuchPlace& place) {
                        problem.code = "unknown-place";
                        problem.text =
                            fmt::format("no trough, outlet or pond is named '{}'", place.asked);
                        problem.hint =
                            place.nearest ? fmt::format("did you mean '{}'?", *place.nearest) : "";
                      },
                      [&](const solver::NothingToImprove&) {
                        problem.code = "nothing-to-improve";
                        problem.text = "the farm has no trough, outlet or pond that takes water";
                      }},
             refusal);
  return problem;
}

}  // namespace leat::render
