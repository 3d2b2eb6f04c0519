#include "solver/answer/finding.h"

#include <array>
#include <cstddef>

namespace leat::solver {

namespace {

/// In the order of `Code`.
constexpr std::array code_words = {
    "parted",       "near-vapour",  "below-vapour",   "breaks",         "air-in",
    "over-rating",  "surge",        "collapse",       "back-siphonage", "starved",
    "dry",          "low-pressure", "suction-at-tee", "air-leak",       "air-stays",
    "intake-cover", "backwards",    "spare-exceeded", "drawn-down",     "part-full",
    "spills",       "cut-off",      "air-doubtful",   "silt",           "freezes",
    "fast",         "no-rating",    "rating-assumed", "no-need",        "month-assumed"};
static_assert(code_words.size() == static_cast<std::size_t>(Code::MonthAssumed) + 1);

}  // namespace

const char* word_of(Code code) {
  return code_words.at(static_cast<std::size_t>(code));
}

const char* word_of(Severity severity) {
  switch (severity) {
    case Severity::Danger:
      return "danger";
    case Severity::Caution:
      return "caution";
    case Severity::Note:
      return "note";
  }
  return "note";
}

bool is_short(Code code) {
  return code == Code::Starved || code == Code::Dry;
}

}  // namespace leat::solver
