#include "model/keys/need_reader.h"

#include <fmt/format.h>

#include "model/catalogue/herd_catalogue.h"
#include "model/keys/month_map_reader.h"
#include "model/quantity/conversion.h"

namespace leat::model {
namespace {

constexpr int most_heads = 1'000'000;

/// A flow unit per day makes a need an amount a day; one map must not mix the two.
Need need_of(const std::array<std::optional<RateText>, 12>& given,
             std::string_view what,
             Reading& reading,
             SourcePosition position) {
  bool per_day = false;
  bool rate = false;
  std::array<std::optional<Flow>, 12> flows{};
  for (std::size_t month = 0; month < given.size(); ++month) {
    if (given[month]) {
      flows[month] = given[month]->rate;
      (given[month]->per_day ? per_day : rate) = true;
    }
  }
  if (per_day && rate) {
    reading.problems.add("mixed-need",
                         position,
                         fmt::format("{} mixes amounts a day with rates", what),
                         "write all of them per day, such as 350 gal/day, or none");
    return NoNeed{};
  }
  const MonthSeries<Flow> series = fill_months(flows, GapRule::Higher);
  note_assumed_months(series.assumed, GapRule::Higher, what, reading.notes);
  if (rate) {
    return RateNeed{series};
  }
  DailyNeed need;
  need.per_day.varies = true;
  need.per_day.assumed = series.assumed;
  for (std::size_t month = 0; month < flows.size(); ++month) {
    need.per_day.by_month[month] =
        Volume::from_si(series.by_month[month].in_si() * seconds_per_day);
  }
  return need;
}

Need read_written_need(const YamlNode& node, const std::string& what, Reading& reading) {
  const auto read_one = [&](const YamlNode& value, const std::string& value_what) {
    return read_value(value, value_what, parse_rate, reading.problems);
  };
  if (node.kind == YamlNode::Kind::Map) {
    const auto given = read_given_months<RateText>(node, what, read_one, reading.problems);
    return given ? need_of(*given, what, reading, node.position) : Need(NoNeed{});
  }
  const std::optional<RateText> need = read_one(node, what);
  if (!need) {
    return NoNeed{};
  }
  if (need->per_day) {
    const Volume amount = Volume::from_si(need->rate.in_si() * seconds_per_day);
    return DailyNeed{MonthSeries<Volume>::constant(amount)};
  }
  return RateNeed{MonthSeries<Flow>::constant(need->rate)};
}

}  // namespace

Need read_need(const MapReader& trough, Reading& reading) {
  if (trough.has("need") && trough.has("herd")) {
    reading.problems.add("need-and-herd",
                         trough.position_of("herd"),
                         fmt::format("{} has both a need and a herd", trough.subject().name),
                         "keep the one you are surer of");
  }
  Need need = NoNeed{};
  if (const YamlNode* const node = trough.find("need")) {
    need = read_written_need(*node, trough.part("need"), reading);
  }
  if (const YamlNode* const node = trough.find("herd")) {
    need = HerdNeed{read_herd(*node, trough.subject(), reading)};
  }
  if (std::holds_alternative<RateNeed>(need) && trough.has("within")) {
    reading.problems.add(
        "within-beside-rate",
        trough.position_of("within"),
        fmt::format("{} has hours, but its need is a rate already", trough.subject().name),
        "write the need per day, such as 350 gal/day, or take out 'within'");
  }
  return need;
}

std::vector<HerdEntry> read_herd(const YamlNode& node, const Subject& subject, Reading& reading) {
  std::vector<HerdEntry> herd;
  if (node.kind != YamlNode::Kind::Map) {
    report_wrong_shape(
        node, subject.part("herd"), "keys with values, such as {goat: 12}, are", reading.problems);
    return herd;
  }
  const Range<int> heads_range{0, most_heads, "from 0 to 1000000", true};
  const auto read_heads = [&](const YamlNode& value,
                              const std::string& what) -> std::optional<Heads> {
    const auto count = read_count(value, what, heads_range, reading.problems);
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
                          reading.problems);
      continue;
    }
    const std::string what = fmt::format("{} of {}", entry.key, subject.name);
    const auto heads =
        read_months_with<Heads>(entry.value, what, read_heads, GapRule::Higher, reading);
    if (heads) {
      herd.push_back(HerdEntry{animal->name, *heads});
    }
  }
  return herd;
}

}  // namespace leat::model
