#include "render/words/size.h"

#include <utility>
#include <variant>

#include <fmt/format.h>

namespace leat::render {

namespace {

class SizeNoteWriter {
 public:
  std::string operator()(const solver::PipesAsLaid&) const {
    return "no pipe is marked 'size: choose': the pipes are taken as laid";
  }
  std::string operator()(const solver::PartlyReached& note) const {
    return fmt::format("no size of the list brings {} more than {:.0f} % of what is wanted there",
                       note.place,
                       100.0 * note.share);
  }
  std::string operator()(const solver::NoSizeStands& note) const {
    return fmt::format("no size of the list stands the pressure in {}", note.pipe);
  }
  std::string operator()(const solver::Tightened& note) const {
    return fmt::format(
        "solved as a farm, the cheapest choice by the sum of losses fell short: it was "
        "tightened {} time{}",
        note.times,
        note.times == 1 ? "" : "s");
  }
  std::string operator()(const solver::SearchEnded&) const {
    return "the search was ended at its limit: a cheaper choice may be left";
  }
  std::string operator()(const solver::NoneSound&) const {
    return "no choice tried does all that is asked: the flags say what is amiss with this one";
  }
  std::string operator()(const solver::FarmsSolved& note) const {
    return fmt::format("{} farms were solved on the way", note.count);
  }
  std::string operator()(const solver::ChosenByWeight& note) const {
    return fmt::format(
        "the file gives no prices of pipe: the sizes of {} that weigh least are "
        "chosen, since plastic pipe is sold by its weight",
        note.kind);
  }
  std::string operator()(const solver::StoresByRuleOnly&) const {
    return "the farm is too large to run its month for every trough and tank: what they "
           "must hold is by rule only";
  }
};

}  // namespace

std::string_view word_of(solver::SizeMethod method) {
  return method == solver::SizeMethod::Exact ? "exact" : "improved";
}

std::string rule_words(const solver::StoreRule& rule) {
  switch (rule.purpose) {
    case solver::StorePurpose::ItsHours:
      return "its hours, at the flow it gets";
    case solver::StorePurpose::HerdAtOnce:
      return "a herd that comes at once";
    case solver::StorePurpose::DaysWater:
      return "time to bring a day's water";
    case solver::StorePurpose::Month:
      return "its month by the hour, begun full";
    case solver::StorePurpose::FailingSource:
      return "a source that may fail for a day";
    case solver::StorePurpose::AllHours:
      return "the hours in which all is drunk";
    case solver::StorePurpose::DaysWithoutSource:
      return fmt::format("{} days without a source", rule.days);
    case solver::StorePurpose::LineShut:
      return rule.days == 1 ? "a day with nothing coming in"
                            : fmt::format("{} days with nothing coming in", rule.days);
    case solver::StorePurpose::SourcesDry:
      return fmt::format("{} days, springs and creeks dry", rule.days);
  }
  return "";
}

std::string_view source_word(solver::StoreSource source) {
  switch (source) {
    case solver::StoreSource::Balance:
      return "balance";
    case solver::StoreSource::Season:
      return "season";
    case solver::StoreSource::Usda:
      return "USDA";
    case solver::StoreSource::Ohio:
      return "Ohio";
    case solver::StoreSource::Practice:
      return "practice";
  }
  return "";
}

std::string size_note(const solver::SizeNote& note) {
  return std::visit(SizeNoteWriter(), note);
}

model::Diagnostic size_problem(solver::SizeRefusal refusal, const model::Farm& farm) {
  model::Diagnostic problem;
  problem.file = farm.file;
  switch (refusal) {
    case solver::SizeRefusal::NothingToSize:
      problem.code = "nothing-to-size";
      problem.text =
          "no pipe of the farm is marked 'size: choose', and no trough or tank has a "
          "day's amount to hold";
      problem.hint = "write 'size: choose' on the pipes to be sized";
      break;
    case solver::SizeRefusal::NoLinearProgramming:
      problem.code = "no-glpk";
      problem.text = "this leat was built without GLPK, which sizing needs";
      problem.hint = "on Debian: apt-get install libglpk-dev, then build leat again";
      break;
  }
  return problem;
}

}  // namespace leat::render
