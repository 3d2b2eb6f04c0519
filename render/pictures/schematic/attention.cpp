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

/// Whether the state of a place says what a finding there says.
bool says(solver::PlaceState state, solver::Code code) {
  using solver::Code;
  using solver::PlaceState;
  switch (state) {
    case PlaceState::BelowVapour:
      return code == Code::BelowVapour;
    case PlaceState::NearVapour:
      return code == Code::NearVapour;
    case PlaceState::Breaks:
      return code == Code::Breaks;
    case PlaceState::Dry:
      return code == Code::Dry;
    case PlaceState::Starved:
      return code == Code::Starved;
    case PlaceState::DrawnDown:
      return code == Code::DrawnDown;
    case PlaceState::Suction:
      return code == Code::SuctionAtTee;
    case PlaceState::Spilling:
    case PlaceState::Ok:
      return false;
  }
  return false;
}

/// Whether the state of a pipe says what a finding there says.
bool says(solver::PipeState state, solver::Code code) {
  using solver::Code;
  using solver::PipeState;
  switch (state) {
    case PipeState::Parted:
      return code == Code::Parted;
    case PipeState::NearVapour:
      return code == Code::NearVapour;
    case PipeState::OverRating:
      return code == Code::OverRating;
    case PipeState::Backwards:
      return code == Code::Backwards;
    case PipeState::PartFull:
      return code == Code::PartFull;
    case PipeState::Suction:
    case PipeState::Still:
    case PipeState::Ok:
      return false;
  }
  return false;
}

std::string words_of(solver::Code code) {
  std::string words = solver::word_of(code);
  std::replace(words.begin(), words.end(), '-', ' ');
  return words;
}

template <class State>
Attention attention_of(const std::string& name, State state, const solver::SteadyAnswer& answer) {
  Attention attention;
  for (const solver::Finding& finding : answer.flags) {
    if (finding.where != name || finding.severity == solver::Severity::Note) {
      continue;
    }
    if (finding.severity == solver::Severity::Danger) {
      attention.outline = Outline::Heavy;
    }
    if (says(state, finding.code)) {
      continue;
    }
    std::string words = words_of(finding.code);
    if (finding.load_case != answer.load_case) {
      words += std::string(" (when ") + solver::word_of(finding.load_case) + ")";
    }
    attention.words.push_back(std::move(words));
  }
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
