// What a trough needs: a rate, an amount a day, or a herd.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "model/keys/map_reader.h"

namespace leat::model {

/// The need of a trough from its keys `need`, `herd` and `within`.
[[nodiscard]] Need read_need(const MapReader& trough, Reading& reading);

/// Animals and their heads: {dry beef cow: 24, calf: {May: 10, Oct: 0}}.
[[nodiscard]] std::vector<HerdEntry> read_herd(const YamlNode& node,
                                               const Subject& subject,
                                               Reading& reading);

}  // namespace leat::model
