// The places of a farm file: springs, creeks, ponds, tanks, troughs, outlets, tees.
#pragma once

#include <optional>
#include <string_view>

#include "model/farm/farm.h"
#include "model/keys/map_reader.h"

namespace leat::model {

enum class PlaceKind { Spring, Creek, Pond, Tank, Trough, Outlet, Tee };

/// The kind whose section of the file has that key: "springs", "creeks" ...
[[nodiscard]] std::optional<PlaceKind> place_kind_of_section(std::string_view section);

/// Reads one place; what could not be read keeps its default, and a problem says so.
[[nodiscard]] Place read_place(PlaceKind kind, const YamlEntry& entry, LoadContext& context);

}  // namespace leat::model
