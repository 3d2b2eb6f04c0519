// Sections of the file that later capabilities use: pumps, rams, breaking floats, prices,
// stock.
#pragma once

#include <vector>

#include "model/farm_checks.h"
#include "model/map_reader.h"
#include "model/name_registry.h"

namespace leat::model {

/// Reads one pump or ram into the farm, notes that `solve` cannot do with it, and adds the places
/// it joins.
void read_pump(const YamlEntry& entry,
               const NameRegistry& names,
               Farm& farm,
               std::vector<Join>& joins,
               Reading& reading);
void read_ram(const YamlEntry& entry,
              const NameRegistry& names,
              Farm& farm,
              std::vector<Join>& joins,
              Reading& reading);

/// Floats that break, each with its day: {north: 2026-08-10} (code no-float).
void read_breaks(const YamlNode& node, const NameRegistry& names, Farm& farm, Reading& reading);

/// Money per length or piece, by name.
void check_prices(const YamlNode& node, SourcePosition key, ProblemList& problems);

/// Lengths of pipe in store, by size.
void check_stock(const YamlNode& node, SourcePosition key, ProblemList& problems);

}  // namespace leat::model
