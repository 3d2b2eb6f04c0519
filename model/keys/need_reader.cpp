#include "model/keys/need_reader.h"

#include <algorithm>

#include <fmt/format.h>

#include "model/catalogue/herd_catalogue.h"
#include "model/keys/month_map_reader.h"

namespace leat::model {
namespace {

constexpr int most_heads = 1'000'000;

template <class Value>
MonthSeries<Value> filled(const std::array<std::optional<WrittenNeed>, 12>& given,
                          std::string_view what,
                          LoadContext& context) {
  std::array<std::optional<Value>, 12> values{};
  for (std::size_t month = 0; month < given.size(); ++month) {
    if (given[month]) {
      values[month] = std::get<Value>(*given[month]);
    }
  }
  MonthSeries<Value> series = fill_months(values, GapRule::Higher);
  note_assumed_months(series.assumed, GapRule::Higher, what, context.notes);
  return series;
}

/// A map that mixes amounts a day with rates is refused: it says two things.
Need need_of(const std::array<std::optional<WrittenNeed>, 12>& given,
             std::string_view what,
             LoadContext& context,
             SourcePosition position) {
  const auto holds = [&given](auto is) { return std::any_of(given.begin(), given.end(), is); };
  const bool a_day =
      holds([](const auto& month) { return month && std::holds_alternative<Volume>(*month); });
  const bool rate =
      holds([](const auto& month) { return month && std::holds_alternative<Flow>(*month); });
  if (a_day && rate) {
    context.problems.add("mixed-need",
                         position,
                         fmt::format("{} mixes amounts a day with rates", what),
                         "write all of them per day, such as 350 gal/day, or none");
    return NoNeed{};
  }
  if (rate) {
    return RateNeed{filled<Flow>(given, what, context)};
  }
  return DailyNeed{filled<Volume>(given, what, context)};
}

}  // namespace

Need read_need(const YamlNode& node, const std::string& what, LoadContext& context) {
  const auto read_one = [&](const YamlNode& value, const std::string& value_what) {
    return read_value(value, value_what, parse_need, context.problems);
  };
  if (node.kind == YamlNode::Kind::Map) {
    const auto given = read_given_months<WrittenNeed>(node, what, read_one, context.problems);
    return given ? need_of(*given, what, context, node.position) : Need(NoNeed{});
  }
  const std::optional<WrittenNeed> need = read_one(node, what);
  if (!need) {
    return NoNeed{};
  }
  if (const auto* const a_day = std::get_if<Volume>(&*need)) {
    return DailyNeed{MonthSeries<Volume>::constant(*a_day)};
  }
  return RateNeed{MonthSeries<Flow>::constant(std::get<Flow>(*need))};
}

std::vector<HerdEntry> read_herd(const YamlNode& node,
                                 const Subject& subject,
                                 LoadContext& context) {
  std::vector<HerdEntry> herd;
  if (node.kind != YamlNode::Kind::Map) {
    report_wrong_shape(
        node, subject.part("herd"), "keys with values, such as {goat: 12}, are", context.problems);
    return herd;
  }
  const Range<int> heads_range{0, most_heads, "from 0 to 1000000", true};
  const auto read_heads = [&](const YamlNode& value,
                              const std::string& what) -> std::optional<Heads> {
    const auto count = read_count(value, what, heads_range, context.problems);
    return count ? std::optional(Heads::from_si(*count)) : std::nullopt;
  };
  for (const YamlEntry& entry : node.entries) {
    const CatalogueAnimal* const animal = find_animal(entry.key);
    if (animal == nullptr) {
      std::vector<std::string_view> known;
      for (const CatalogueAnimal& row : herd_catalogue()) {
        known.emplace_back(row.name);
      }
      report_unknown_word("unknown-animal",
                          entry.position,
                          fmt::format("'{}' is not in the herd catalogue", entry.key),
                          entry.key,
                          known,
                          context.problems);
      continue;
    }
    const std::string what = fmt::format("{} of {}", entry.key, subject.name);
    const auto heads =
        read_months_with<Heads>(entry.value, what, read_heads, GapRule::Higher, context);
    if (heads) {
      herd.push_back(HerdEntry{animal->name, *heads});
    }
  }
  return herd;
}

}  // namespace leat::model
