#include "solver/answer/steady_answer.h"

namespace leat::solver {

const char* word_of(PlaceState state) {
  switch (state) {
    case PlaceState::BelowVapour:
      return "below vapour";
    case PlaceState::NearVapour:
      return "near vapour";
    case PlaceState::Breaks:
      return "breaks";
    case PlaceState::Dry:
      return "dry";
    case PlaceState::Starved:
      return "starved";
    case PlaceState::DrawnDown:
      return "drawn down";
    case PlaceState::Suction:
      return "suction";
    case PlaceState::Spilling:
      return "spilling";
    case PlaceState::Ok:
      return "ok";
  }
  return "ok";
}

const char* word_of(PipeState state) {
  switch (state) {
    case PipeState::Parted:
      return "parted";
    case PipeState::NearVapour:
      return "near vapour";
    case PipeState::OverRating:
      return "over rating";
    case PipeState::Backwards:
      return "backwards";
    case PipeState::PartFull:
      return "part full";
    case PipeState::Suction:
      return "suction";
    case PipeState::Still:
      return "still";
    case PipeState::Ok:
      return "ok";
  }
  return "ok";
}

}  // namespace leat::solver
