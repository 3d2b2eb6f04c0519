// What is wrong, in sentences, worst first.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "render/io/terminal_style.h"
#include "render/words/detail.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// A flag in the words a person reads.
struct Finding {
  solver::FlagSeverity severity = solver::FlagSeverity::Note;
  std::string text;
};

inline constexpr std::string_view nothing_amiss = "Nothing amiss that leat checks.";

/// Whether a caution or a danger is flagged.
[[nodiscard]] bool is_amiss(const solver::SteadyAnswer& answer);

/// The answer's flags as `findings_text` says them.
[[nodiscard]] std::vector<Finding> findings_of(const solver::SteadyAnswer& answer, Detail detail);

/// The answer's flags, each in a sentence behind its severity; "Nothing amiss that leat checks."
/// (`where_well`) where none is a caution or a danger. A load case that was not asked for is named
/// behind the sentence, the first time with what it means. Short, the pipes whose rating was
/// assumed share one line.
[[nodiscard]] std::string findings_text(const solver::SteadyAnswer& answer,
                                        Detail detail,
                                        const Terminal& terminal,
                                        std::string_view where_well = nothing_amiss);

}  // namespace leat::render
