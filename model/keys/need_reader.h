// What a trough needs: a rate, an amount a day, or a herd.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "model/keys/map_reader.h"

namespace leat::model {

/// A need that is written as a rate or as an amount a day, one or by month (code mixed-need).
[[nodiscard]] Need read_need(const YamlNode& node, const std::string& what, LoadContext& context);

/// Animals and their heads: {dry beef cow: 24, calf: {May: 10, Oct: 0}}.
[[nodiscard]] std::vector<HerdEntry> read_herd(const YamlNode& node,
                                               const Subject& subject,
                                               LoadContext& context);

}  // namespace leat::model
