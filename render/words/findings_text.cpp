#include "render/words/findings_text.h"

#include <algorithm>
#include <set>
#include <string_view>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "render/words/finding_sentence.h"
#include "render/words/load_case_words.h"
#include "render/words/running_text.h"

namespace leat::render {

namespace {

Style style_of(solver::Severity severity) {
  switch (severity) {
    case solver::Severity::Danger:
      return Style::Danger;
    case solver::Severity::Caution:
      return Style::Caution;
    case solver::Severity::Note:
      return Style::Dim;
  }
  return Style::Plain;
}

/// Names a finding's load case where it is not the one asked for; the first time on a screen with
/// what it means.
class CaseNames {
 public:
  explicit CaseNames(solver::LoadCase asked_for) : asked_for_(asked_for) {}

  std::string behind(const solver::Finding& finding) {
    // What a pipe was sold as is no matter of a load case.
    if (finding.load_case == asked_for_ || finding.code == solver::Code::RatingAssumed) {
      return "";
    }
    const char* const word = solver::word_of(finding.load_case);
    return explained_.insert(finding.load_case).second
               ? fmt::format(" (case {}: {})", word, meaning_of(finding.load_case))
               : fmt::format(" (case {})", word);
  }

 private:
  solver::LoadCase asked_for_;
  std::set<solver::LoadCase> explained_;
};

/// One note in place of the many that say the same of each pipe.
ToldFinding one_rating_note(const std::vector<const solver::Finding*>& notes) {
  std::vector<std::string_view> pipes;
  for (const solver::Finding* const note : notes) {
    pipes.emplace_back(note->where);
  }
  return {solver::Severity::Note,
          fmt::format("{} pipes are sold in several ratings and the lowest is taken for each: {}",
                      notes.size(),
                      fmt::join(pipes, ", "))};
}

}  // namespace

bool is_amiss(const std::vector<solver::Finding>& findings) {
  return std::any_of(findings.begin(), findings.end(), [](const solver::Finding& finding) {
    return finding.severity != solver::Severity::Note;
  });
}

std::vector<ToldFinding> told_findings(const std::vector<solver::Finding>& findings,
                                       const FindingsForm& form) {
  std::vector<ToldFinding> told;
  CaseNames cases(form.asked_for);
  const auto add = [&](const solver::Finding& finding) {
    told.push_back({finding.severity, sentence_of(finding, form.units) + cases.behind(finding)});
  };
  std::vector<const solver::Finding*> ratings;
  for (const solver::Finding& finding : findings) {
    if (finding.code == solver::Code::RatingAssumed && form.detail == Detail::Short) {
      ratings.push_back(&finding);
    } else {
      add(finding);
    }
  }
  if (ratings.size() == 1) {
    add(*ratings.front());
  } else if (!ratings.empty()) {
    told.push_back(one_rating_note(ratings));
  }
  return told;
}

std::string findings_text(const std::vector<solver::Finding>& findings,
                          const FindingsForm& form,
                          const Terminal& terminal,
                          std::string_view where_well) {
  constexpr int indent = 9;
  std::string text = "\n";
  if (!is_amiss(findings)) {
    text += wrapped(where_well, text_width(terminal), 0);
  }
  for (const ToldFinding& finding : told_findings(findings, form)) {
    const std::string_view word = solver::word_of(finding.severity);
    const std::string lines =
        wrapped(fmt::format("{:<{}}{}", word, indent, finding.text), text_width(terminal), indent);
    text += styled(word, style_of(finding.severity), terminal.colour) + lines.substr(word.size());
  }
  return text;
}

}  // namespace leat::render
