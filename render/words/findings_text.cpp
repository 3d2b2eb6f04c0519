#include "render/words/findings_text.h"

#include <algorithm>
#include <set>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "render/words/load_case_words.h"
#include "render/words/running_text.h"

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
               ? fmt::format(" (case {}: {})", word, meaning_of(flag.load_case))
               : fmt::format(" (case {})", word);
  }

 private:
  solver::LoadCase asked_for_;
  std::set<solver::LoadCase> explained_;
};

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

bool is_amiss(const solver::SteadyAnswer& answer) {
  return std::any_of(answer.flags.begin(), answer.flags.end(), [](const solver::Flag& flag) {
    return flag.severity != solver::FlagSeverity::Note;
  });
}

std::vector<Finding> findings_of(const solver::SteadyAnswer& answer, Detail detail) {
  std::vector<Finding> findings;
  CaseNames cases(answer.load_case);
  const auto add = [&](const solver::Flag& flag) {
    findings.push_back({flag.severity, flag.text + cases.behind(flag)});
  };
  std::vector<const solver::Flag*> ratings;
  for (const solver::Flag& flag : answer.flags) {
    if (flag.code == rating_code && detail == Detail::Short) {
      ratings.push_back(&flag);
    } else {
      add(flag);
    }
  }
  if (ratings.size() == 1) {
    add(*ratings.front());
  } else if (!ratings.empty()) {
    add(one_rating_note(ratings, answer));
  }
  return findings;
}

std::string findings_text(const solver::SteadyAnswer& answer,
                          Detail detail,
                          const Terminal& terminal,
                          std::string_view where_well) {
  constexpr int indent = 9;
  std::string text = "\n";
  if (!is_amiss(answer)) {
    text += wrapped(where_well, text_width(terminal), 0);
  }
  for (const Finding& finding : findings_of(answer, detail)) {
    const std::string_view word = solver::word_of(finding.severity);
    const std::string lines =
        wrapped(fmt::format("{:<{}}{}", word, indent, finding.text), text_width(terminal), indent);
    text += styled(word, style_of(finding.severity), terminal.colour) + lines.substr(word.size());
  }
  return text;
}

}  // namespace leat::render
