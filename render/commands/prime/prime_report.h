// How a line is primed, on a sheet to take up the hill, and as JSON.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "model/farm/farm.h"
#include "render/commands/solve/table_report.h"
#include "render/document/text_table.h"
#include "render/io/terminal_style.h"
#include "solver/prime/prime.h"

namespace leat::render {

/// What the columns of the table about air mean.
inline constexpr std::string_view air_key =
    "stays: below this even tiny bubbles stand; swept: from this on they go (Escarameia with "
    "safety, and Wisner); Wisner, Kent, and Kalinske and Bliss show how far the authors differ. "
    "Take any of it as +/-20 %.";

/// What each leg holds; then how fast water runs down each falling leg and what the authors ask
/// for, which may have no rows.
[[nodiscard]] std::vector<TextTable> prime_tables(const model::Farm& farm,
                                                  const solver::PrimePlan& plan,
                                                  model::UnitSystem units);

/// The screen of `leat prime` for a plan without problems; at most `widest_text` columns.
[[nodiscard]] std::string prime_table(const model::Farm& farm,
                                      const solver::PrimePlan& plan,
                                      const TableOptions& options,
                                      const Terminal& terminal);

/// The object of `leat prime --json` (keys: OUTPUT.md), ending in a newline; its steps are told in
/// the units asked for.
[[nodiscard]] std::string prime_json(const model::Farm& farm,
                                     const solver::PrimePlan& plan,
                                     model::UnitSystem units);

}  // namespace leat::render
