// A farm written as text inside a test, solved, and its findings in sentences.
#pragma once

#include <string>
#include <utility>

#include "render/words/finding_sentence.h"
#include "render/words/steady_notes.h"
#include "tests/support/farm_text.h"

namespace leat::tests {

struct ToldFarm : SolvedFarm {
  /// The sentence of a finding in the units the farm shows, empty where it was not raised.
  [[nodiscard]] std::string text(solver::Code code, const std::string& where) const {
    return text(code, where, farm.show);
  }
  [[nodiscard]] std::string text(solver::Code code,
                                 const std::string& where,
                                 model::UnitSystem units) const {
    const solver::Finding* const found = flag(code, where);
    return found == nullptr ? std::string() : render::sentence_of(*found, units);
  }
  [[nodiscard]] std::vector<std::string> notes() const {
    return render::steady_note_texts(answer.notes, farm.show);
  }
};

/// As `solved`, and told.
template <class... Options>
[[nodiscard]] ToldFarm told(Options&&... options) {
  return ToldFarm{solved(std::forward<Options>(options)...)};
}

}  // namespace leat::tests
