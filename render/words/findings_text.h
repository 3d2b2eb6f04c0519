// What is wrong, in sentences, worst first.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "render/io/terminal_style.h"
#include "render/words/detail.h"
#include "solver/answer/finding.h"

namespace leat::render {

/// A finding as a person reads it.
struct ToldFinding {
  solver::Severity severity = solver::Severity::Note;
  std::string text;
};

/// How findings are told.
struct FindingsForm {
  model::UnitSystem units = model::UnitSystem::Metric;
  Detail detail = Detail::Short;
  solver::LoadCase asked_for = solver::LoadCase::Needs;  // not named behind a sentence
};

inline constexpr std::string_view nothing_amiss = "Nothing amiss that leat checks.";

/// Whether one is a caution or a danger.
[[nodiscard]] bool is_amiss(const std::vector<solver::Finding>& findings);

/// The findings as `findings_text` says them.
[[nodiscard]] std::vector<ToldFinding> told_findings(const std::vector<solver::Finding>& findings,
                                                     const FindingsForm& form);

/// The findings, each in a sentence behind its severity; "Nothing amiss that leat checks."
/// (`where_well`) where none is a caution or a danger. A load case that was not asked for is named
/// behind the sentence, the first time with what it means. Short, the pipes whose rating was
/// assumed share one line.
[[nodiscard]] std::string findings_text(const std::vector<solver::Finding>& findings,
                                        const FindingsForm& form,
                                        const Terminal& terminal,
                                        std::string_view where_well = nothing_amiss);

}  // namespace leat::render
