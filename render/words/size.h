// What sizing has to say: rules of stores, what was taken and found, why nothing is sized.
#pragma once

#include <string>
#include <string_view>

#include "model/text/diagnostic.h"
#include "solver/size/size.h"

namespace leat::render {

[[nodiscard]] std::string_view word_of(solver::SizeMethod method);  // "exact", "improved"

/// What a rule asks a store to carry: "a herd that comes at once".
[[nodiscard]] std::string rule_words(const solver::StoreRule& rule);
/// Who says so: "balance", "season", "USDA", "Ohio", "practice".
[[nodiscard]] std::string_view source_word(solver::StoreSource source);

/// One sentence without a full stop.
[[nodiscard]] std::string size_note(const solver::SizeNote& note);

/// Why nothing of the farm is sized, as an error of its file.
[[nodiscard]] model::Diagnostic size_problem(solver::SizeRefusal refusal, const model::Farm& farm);

}  // namespace leat::render
