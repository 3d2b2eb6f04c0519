// What pipe and fittings cost, and what pipe lies in store: the sections `prices` and `stock`.
#pragma once

#include <string_view>

#include "model/farm/farm.h"
#include "model/quantity/quantity_text.h"
#include "model/text/problem_list.h"
#include "model/text/yaml_tree.h"

namespace leat::model {

/// Money for a metre of pipe, from "0.62 per ft", "0.62/ft" or "62 per 100 ft"; never negative, at
/// most 1e6 a metre. The money is whatever the farm counts in: it carries no sign. Errors:
/// "missing-unit", "not-a-number", "out-of-range", and those of a length.
[[nodiscard]] Parsed<double> parse_money_per_length(std::string_view text);

/// Money for one piece: "2.50" or "2.50 each", never negative, at most 1e6.
[[nodiscard]] Parsed<double> parse_money_each(std::string_view text);

/// Reads `prices` into Farm::pipe_prices and fitting_prices. A key is a size or a fitting of the
/// catalogues (code unknown-price); each stands once (repeated-price).
void read_prices(const YamlNode& node, Farm& farm, ProblemList& problems);

/// Reads `stock` into Farm::stock: a length above 0 by size (codes unknown-size, repeated-stock).
void read_stock(const YamlNode& node, Farm& farm, ProblemList& problems);

}  // namespace leat::model
