// Room: what can be bought and what stock drink, each row with its source.
//
// Pipe sizes as sold: name, true bore, wall, rating, each row with its source.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/farm/farm.h"

namespace leat::model {

/// One size of the catalogue.
struct CataloguePipe {
  PipeSize size;       // size.text is the name as listed
  std::string system;  // "SIDR", "CTS", "DR", "PE100 SDR", "PE80 SDR", "sch 40 PVC", ...
  std::string source;  // standard and table, or "from memory"
};

/// Every size, in the order `leat pipes` lists them.
[[nodiscard]] const std::vector<CataloguePipe>& pipe_catalogue();

/// The size with that name, read without regard to case or extra spaces; a rating may trail
/// ("1 in SIDR 15, 100 psi") and then is no longer assumed. `text` of the size is the catalogue's
/// spelling, with the rating as written behind it. Empty when the name is unknown or the rating is
/// no pressure above 0.
[[nodiscard]] std::optional<PipeSize> find_pipe_size(std::string_view text);

/// What stands behind the figure in the names of the pipe a farm buys that has none yet: "in SIDR
/// 15" for one that shows US units, "mm PE100 SDR 11" for a metric one (common practice).
[[nodiscard]] std::string_view usual_kind_of_pipe(UnitSystem shown);

/// The three catalogue names nearest to an unknown one, nearest first.
[[nodiscard]] std::vector<std::string> nearest_pipe_sizes(std::string_view text);

}  // namespace leat::model
