#include "render/pictures/schematic/attention.h"

#include <algorithm>

namespace leat::render {
namespace {

bool is_heavy(solver::PlaceState state) {
  using solver::PlaceState;
  switch (state) {
    case PlaceState::BelowVapour:
    case PlaceState::NearVapour:
    case PlaceState::Breaks:
    case PlaceState::Dry:
    case PlaceState::Starved:
      return true;
    case PlaceState::DrawnDown:
    case PlaceState::Suction:
    case PlaceState::Spilling:
    case PlaceState::Ok:
      return false;
  }
  return false;
}

bool is_heavy(solver::PipeState state) {
  using solver::PipeState;
  switch (state) {
    case PipeState::Parted:
    case PipeState::NearVapour:
    case PipeState::OverRating:
      return true;
    case PipeState::Backwards:
    case PipeState::PartFull:
    case PipeState::Suction:
    case PipeState::Still:
    case PipeState::Ok:
      return false;
  }
  return false;
}

std::string words_of_code(std::string code) {
  std::replace(code.begin(), code.end(), '-', ' ');
  return code;
}

Attention attention_with(const std::string& name,
                         const std::string& state_words,
                         const solver::SteadyAnswer& answer) {
  Attention attention;
  for (const solver::Flag& flag : answer.flags) {
    if (flag.where != name || flag.severity == solver::FlagSeverity::Note) {
      continue;
    }
    if (flag.severity == solver::FlagSeverity::Danger) {
      attention.outline = Outline::Heavy;
    }
    std::string words = words_of_code(flag.code);
    const bool is_state = words == state_words;
    const bool is_state_longer = words == "suction at tee" && state_words == "suction";
    if (is_state || is_state_longer) {
      continue;
    }
    if (flag.load_case != answer.load_case) {
      words += std::string(" (when ") + solver::word_of(flag.load_case) + ")";
    }
    attention.words.push_back(std::move(words));
  }
  return attention;
}

template <class State>
Attention attention_of(const std::string& name, State state, const solver::SteadyAnswer& answer) {
  Attention attention = attention_with(name, solver::word_of(state), answer);
  if (is_heavy(state)) {
    attention.outline = Outline::Heavy;
  }
  return attention;
}

}  // namespace

Attention attention_at(const std::string& name,
                       solver::PlaceState state,
                       const solver::SteadyAnswer& answer) {
  return attention_of(name, state, answer);
}

Attention attention_at(const std::string& name,
                       solver::PipeState state,
                       const solver::SteadyAnswer& answer) {
  return attention_of(name, state, answer);
}

}  // namespace leat::render
