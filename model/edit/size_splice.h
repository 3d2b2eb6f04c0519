// Chosen sizes put into a farm file: the text is changed only where it must be.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"

namespace leat::model {

/// A pipe of the file's farm and what it became: one pipe of the laid farm, or several in line.
struct SplicedRun {
  std::size_t pipe = 0;
  std::vector<std::size_t> laid;  // indexes of the laid farm's pipes
};

/// The file's text with the runs laid. Where a run is of one size, `choose` becomes its name. Where
/// it is of several, its lines become comments and its parts follow; the tees between them come
/// into `tees`. Every other byte stays. Error (code "cannot-splice"): a run of several sizes whose
/// lines are not its own.
[[nodiscard]] std::variant<std::string, Diagnostic> spliced_sizes(
    std::string_view source,
    const Farm& farm,
    const Farm& laid,
    const std::vector<SplicedRun>& runs);

/// What the first difference is between two farms that should be one (names, ends, bores, lengths
/// to 1 cm, levels of tees, losses of fittings); none where they agree.
[[nodiscard]] std::optional<std::string> first_difference(const Farm& farm, const Farm& other);

}  // namespace leat::model
