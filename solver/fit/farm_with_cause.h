// A copy of the farm file with the likeliest cause in it, proved to give what the cause gave.
#pragma once

#include <optional>
#include <string>

#include "model/keys/farm_file.h"
#include "solver/fit/fit.h"

namespace leat::solver {

/// Why no copy is made.
enum class CopyRefusal {
  NothingExplains,  // no cause explains the readings
  NotSound,         // the copy would not be read again
  ReadsOtherwise,   // ... or would not give what the fit gave
  CannotBeWritten   // a farm file has no place for any of the first entry's causes
};

/// The new text with the cause that was put in, or why there is none.
struct CopyWithCause {
  std::string text;
  std::optional<FitSite> cause;
  std::optional<CopyRefusal> refusal;
  std::string problem;  // of NotSound: what the reader says
};

/// Puts the first entry's likeliest cause that a farm file can hold into a copy of the text
/// (model/edit/put_cause.h). The copy is read again and must give the readings the cause gave, to
/// 0.1 %.
[[nodiscard]] CopyWithCause farm_with_cause(const model::LoadedFarm& loaded,
                                            const FitAnswer& answer);

}  // namespace leat::solver
