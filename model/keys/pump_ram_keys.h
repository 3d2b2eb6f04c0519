// Sections of the file that later capabilities use: pumps, rams, breaking floats.
#pragma once

#include <vector>

#include "model/keys/farm_checks.h"
#include "model/keys/map_reader.h"
#include "model/keys/name_registry.h"

namespace leat::model {

/// Reads one pump or ram into the farm and adds the places it joins (codes not-rising, not-falling,
/// too-few-points, wrong-end, contradictory).
void read_pump(const YamlEntry& entry,
               const NameRegistry& names,
               Farm& farm,
               std::vector<Join>& joins,
               LoadContext& context);
void read_ram(const YamlEntry& entry,
              const NameRegistry& names,
              Farm& farm,
              std::vector<Join>& joins,
              LoadContext& context);

/// Floats that break, each with its day: {north: 2026-08-10} (code no-float).
void read_breaks(const YamlNode& node, const NameRegistry& names, Farm& farm, LoadContext& context);

}  // namespace leat::model
