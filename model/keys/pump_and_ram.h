// The keys of pumps and rams.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/keys/farm_checks.h"
#include "model/keys/key.h"
#include "model/keys/name_registry.h"

namespace leat::model {

/// A pump or ram while it is read, and the names of the farm; an end is there where it is known.
struct PumpDraft {
  Pump pump;
  const NameRegistry& names;
  std::optional<std::size_t> from;
  std::optional<std::size_t> to;
};
struct RamDraft {
  Ram ram;
  const NameRegistry& names;
  std::optional<std::size_t> drive;
  std::optional<std::size_t> delivery;
};

[[nodiscard]] const Keys<PumpDraft>& pump_keys();
[[nodiscard]] const Keys<RamDraft>& ram_keys();

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

}  // namespace leat::model
