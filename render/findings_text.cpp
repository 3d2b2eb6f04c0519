#include "render/findings_text.h"

#include <algorithm>
#include <set>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "render/text_table.h"

namespace leat::render {

namespace {

Style style_of(solver::FlagSeverity severity) {
  switch (severity) {
    case solver::FlagSeverity::Danger:
      return Style::Danger;
    case solver::FlagSeverity::Caution:
      return Style::Caution;
    case solver::FlagSeverity::Note:
      return Style::Dim;
  }
  return Style::Plain;
}

constexpr std::string_view rating_code = "rating-assumed";

std::string_view words_of(solver::LoadCase load_case) {
  switch (load_case) {
    case solver::LoadCase::Needs:
      return "each trough taking at most its need";
    case solver::LoadCase::Wide:
      return "with every float wide open";
    case solver::LoadCase::Static:
      return "with every end shut";
  }
  return "";
}

/// Names a finding's load case where it is not the one asked for; the first time on a screen with
/// what it means.
class CaseNames {
 public:
  explicit CaseNames(solver::LoadCase asked_for) : asked_for_(asked_for) {}

  std::string behind(const solver::Flag& flag) {
    // What a pipe was sold as is no matter of a load case.
    if (flag.load_case == asked_for_ || flag.code == rating_code) {
      return "";
    }
    const char* const word = solver::word_of(flag.load_case);
    return explained_.insert(flag.load_case).second
               ? fmt::format(" (case {}: {})", word, words_of(flag.load_case))
               : fmt::format(" (case {})", word);
  }

 private:
  solver::LoadCase asked_for_;
  std::set<solver::LoadCase> explained_;
};

std::string flag_text(const solver::Flag& flag, CaseNames& cases, const Terminal& terminal) {
  constexpr int indent = 9;
  const std::string_view word = solver::word_of(flag.severity);
  const std::string sentence =
      fmt::format("{:<{}}{}{}", word, indent, flag.text, cases.behind(flag));
  const std::string lines = wrapped(sentence, text_width(terminal), indent);
  return styled(word, style_of(flag.severity), terminal.colour) + lines.substr(word.size());
}

/// One note in place of the many that say the same of each pipe.
solver::Flag one_rating_note(const std::vector<const solver::Flag*>& notes,
                             const solver::SteadyAnswer& answer) {
  solver::Flag note;
  note.severity = solver::FlagSeverity::Note;
  note.load_case = answer.load_case;
  note.text = fmt::format("{} pipes are sold in several ratings and the lowest is taken for each: ",
                          notes.size());
  const char* separator = "";
  for (const solver::Flag* const pipe : notes) {
    note.text += separator + pipe->where;
    separator = ", ";
  }
  return note;
}

}  // namespace

std::string findings_text(const solver::SteadyAnswer& answer,
                          Detail detail,
                          const Terminal& terminal) {
  std::string text = "\n";
  const bool is_amiss =
      std::any_of(answer.flags.begin(), answer.flags.end(), [](const solver::Flag& flag) {
        return flag.severity != solver::FlagSeverity::Note;
      });
  if (!is_amiss) {
    text += "Nothing amiss that leat checks.\n";
  }
  CaseNames cases(answer.load_case);
  std::vector<const solver::Flag*> ratings;
  for (const solver::Flag& flag : answer.flags) {
    if (flag.code == rating_code && detail == Detail::Short) {
      ratings.push_back(&flag);
    } else {
      text += flag_text(flag, cases, terminal);
    }
  }
  if (ratings.size() == 1) {
    text += flag_text(*ratings.front(), cases, terminal);
  } else if (!ratings.empty()) {
    text += flag_text(one_rating_note(ratings, answer), cases, terminal);
  }
  return text;
}

}  // namespace leat::render
