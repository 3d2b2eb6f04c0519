// One amount of a wanted kind out of a written text, in SI.
#pragma once

#include <string_view>

#include "model/quantity/quantity_text.h"
#include "model/quantity/unit_table.h"

namespace leat::model {

/// What is wanted: the kind of unit, the words for it, whether a minus may stand, and the largest
/// amount that is still sane [SI]. Beyond lies a slip of the pen, and sums that lose their digits.
enum class Sign { NeverNegative, MayBeNegative };
struct Wanted {
  UnitKind kind;
  std::string_view words;
  Sign sign;
  double largest;
};

/// An amount in SI, and the unit of its first part.
struct Amount {
  double si = 0.0;
  const Unit* unit = nullptr;
};

/// Reads one amount of the wanted kind: one number and unit, "6 ft 3 in", or "1 min 12 s".
[[nodiscard]] Parsed<Amount> read_amount(std::string_view text, const Wanted& wanted);

/// Checks the size of an amount of the wanted kind, however it was found. `text` is for messages.
[[nodiscard]] Parsed<Amount> checked_amount(std::string_view text,
                                            Amount amount,
                                            const Wanted& wanted);

/// The problem "out-of-range": the text in quotes, then why.
[[nodiscard]] QuantityProblem out_of_range(std::string_view text, std::string_view why);

}  // namespace leat::model
