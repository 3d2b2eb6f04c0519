#include "model/keys/place_reader.h"

#include <array>

#include <fmt/format.h>

#include "model/keys/creek.h"
#include "model/keys/outlet.h"
#include "model/keys/place_keys.h"
#include "model/keys/pond.h"
#include "model/keys/spring.h"
#include "model/keys/tank.h"
#include "model/keys/tee.h"
#include "model/keys/trough.h"

namespace leat::model {
namespace {

/// A section of places: its key, its places' word, their keys, and how one is read.
struct Section {
  std::string_view key;
  std::string_view word;
  const KeyTable& (*keys)();
  PlaceData (*read)(const MapReader& map, LoadContext& context);
};

/// Of places that are what their keys say.
template <class Data, const Keys<Data>& (*keys)()>
Data read_plain(const MapReader& map, LoadContext& context) {
  Data data;
  keys().read(map, data, context);
  return data;
}

template <class Data, const Keys<Data>& (*keys)(), Data (*read)(const MapReader&, LoadContext&)>
constexpr Section section(std::string_view key, std::string_view word) {
  return {
      key,
      word,
      []() -> const KeyTable& { return keys(); },
      [](const MapReader& map, LoadContext& context) -> PlaceData { return read(map, context); }};
}

/// In the order of PlaceKind.
constexpr std::array<Section, 7> sections = {
    section<Spring, spring_keys, read_spring>("springs", "spring"),
    section<Creek, creek_keys, read_creek>("creeks", "creek"),
    section<Pond, pond_keys, read_pond>("ponds", "pond"),
    section<Tank, tank_keys, read_tank>("tanks", "tank"),
    section<Trough, trough_keys, read_trough>("troughs", "trough"),
    section<Outlet, outlet_keys, read_plain<Outlet, outlet_keys>>("outlets", "outlet"),
    section<Tee, tee_keys, read_plain<Tee, tee_keys>>("tees", "tee"),
};

}  // namespace

std::optional<PlaceKind> place_kind_of_section(std::string_view section) {
  for (std::size_t kind = 0; kind < sections.size(); ++kind) {
    if (sections[kind].key == section) {
      return static_cast<PlaceKind>(kind);
    }
  }
  return std::nullopt;
}

Place read_place(PlaceKind kind, const YamlEntry& entry, LoadContext& context) {
  const Section& section = sections[static_cast<std::size_t>(kind)];
  const Subject subject{fmt::format("{} '{}'", section.word, entry.key), entry.position};
  Place place;
  place.name = entry.key;
  place.position = entry.position;
  if (kind == PlaceKind::Tee && entry.value.kind == YamlNode::Kind::Text) {
    Tee tee;
    set_if(tee.elevation, read_level(entry.value, subject.part("elevation"), context.problems));
    place.data = tee;
    return place;
  }
  const MapReader map(entry.value, subject, section.keys().names(), context.problems);
  place.data = section.read(map, context);
  place_keys().read(map, place, context);
  return place;
}

}  // namespace leat::model
