// The kinds of values that keys have: a quantity, one of a few words, yes or no, values by month
// ...
//
// Each function makes the reader of a value and says what may stand there. `slot` is where the
// value goes: a member of the thing that is read, or a function from the thing to such a member.
#pragma once

#include <array>
#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "model/keys/dated_record.h"
#include "model/keys/key.h"
#include "model/keys/month_map_reader.h"

namespace leat::model {

/// How a quantity is parsed, and what the schema calls it.
template <class Quantity>
struct Written;
template <>
struct Written<Length> {
  static constexpr std::string_view definition = "length";
  static constexpr auto parse = parse_length;
};
template <>
struct Written<Elevation> {
  static constexpr std::string_view definition = "level";
  static constexpr auto parse = parse_elevation;
};
template <>
struct Written<Flow> {
  static constexpr std::string_view definition = "flow";
  static constexpr auto parse = parse_flow;
};
template <>
struct Written<Volume> {
  static constexpr std::string_view definition = "volume";
  static constexpr auto parse = parse_volume;
};
template <>
struct Written<Area> {
  static constexpr std::string_view definition = "area";
  static constexpr auto parse = parse_area;
};
template <>
struct Written<Pressure> {
  static constexpr std::string_view definition = "pressure";
  static constexpr auto parse = parse_pressure;
};
template <>
struct Written<Duration> {
  static constexpr std::string_view definition = "duration";
  static constexpr auto parse = parse_duration;
};
template <>
struct Written<Temperature> {
  static constexpr std::string_view definition = "temperature";
  static constexpr auto parse = parse_temperature;
};

/// A value of some kind that `read_one(const KeyValue&)` reads: an optional of what goes to the
/// slot.
template <class Slot, class ReadOne>
[[nodiscard]] auto value_of(Kind kind, Slot slot, ReadOne read_one) {
  const auto read = [slot, read_one](const KeyValue& value, auto& thing) {
    auto found = read_one(value);
    if (!found) {
      return false;
    }
    std::invoke(slot, thing) = *std::move(found);
    return true;
  };
  return Value<decltype(read)>{std::move(kind), read};
}

/// Any quantity of its kind: `quantity<Pressure>(&Trough::closes_against)`.
template <class Quantity, class Slot>
[[nodiscard]] auto quantity(Slot slot) {
  return value_of(Kind{Written<Quantity>::definition}, slot, [](const KeyValue& value) {
    return read_value(value.node, value.what, Written<Quantity>::parse, value.problems());
  });
}

/// A quantity within a range.
template <class Quantity, class Slot>
[[nodiscard]] auto quantity(Slot slot, const Range<Quantity>& range) {
  return value_of(Kind{Written<Quantity>::definition}, slot, [range](const KeyValue& value) {
    return read_within(value.node, value.what, Written<Quantity>::parse, range, value.problems());
  });
}

/// A level on the farm's datum.
template <class Slot>
[[nodiscard]] auto level(Slot slot) {
  return quantity(slot, level_range);
}

/// A bare number within a range.
template <class Slot>
[[nodiscard]] auto number(Slot slot, const Range<double>& range) {
  return value_of(Kind{.numbers = range}, slot, [range](const KeyValue& value) {
    return read_within(value.node, value.what, parse_number, range, value.problems());
  });
}

/// A share such as 3/8, 0.4 or 40 %.
template <class Slot>
[[nodiscard]] auto share(Slot slot, const Range<double>& range) {
  return value_of(Kind{"share"}, slot, [range](const KeyValue& value) {
    return read_within(value.node, value.what, parse_share, range, value.problems());
  });
}

/// yes or no.
template <class Slot>
[[nodiscard]] auto truth(Slot slot) {
  return value_of(Kind{truth_definition}, slot, [](const KeyValue& value) {
    return read_truth(value.node, value.what, value.problems());
  });
}

/// A text that is kept as it is.
template <class Slot>
[[nodiscard]] auto text(Slot slot) {
  return value_of(Kind{"text"}, slot, [](const KeyValue& value) {
    const std::string* const found = read_text(value.node, value.what, value.problems());
    return found == nullptr ? std::optional<std::string>() : std::optional(*found);
  });
}

/// One of a few words.
template <class Slot, class Meaning, std::size_t count>
[[nodiscard]] auto word(Slot slot, const std::array<Word<Meaning>, count>& words) {
  Kind kind;
  for (const Word<Meaning>& one : words) {
    kind.words.push_back(one.first);
  }
  return value_of(std::move(kind), slot, [words](const KeyValue& value) {
    return read_word(value.node, value.what, words, value.problems());
  });
}

/// One value or a map of months, whose gaps are filled by the rule.
template <class Quantity, class Slot>
[[nodiscard]] auto by_month(Slot slot, GapRule rule) {
  const Kind kind{.definition = Written<Quantity>::definition, .by_month = true};
  return value_of(kind, slot, [rule](const KeyValue& value) {
    return read_months(value.node, value.what, Written<Quantity>::parse, rule, value.context);
  });
}

/// One value, a map of months, or a CSV file of dates, which goes to `record_slot`.
template <class Quantity, class Slot, class RecordSlot>
[[nodiscard]] auto by_month_or_record(Slot slot,
                                      RecordSlot record_slot,
                                      const RecordKind<Quantity>& record,
                                      MonthTakes takes,
                                      GapRule rule) {
  const auto read = [=](const KeyValue& value, auto& thing) {
    auto series = read_months_or_record(value.node,
                                        value.what,
                                        record,
                                        takes,
                                        rule,
                                        value.context,
                                        std::invoke(record_slot, thing));
    if (!series) {
      return false;
    }
    std::invoke(slot, thing) = *std::move(series);
    return true;
  };
  const Kind kind{.definition = Written<Quantity>::definition, .by_month = true, .or_csv = true};
  return Value<decltype(read)>{kind, read};
}

/// Flows by month or measured on dates: what can be counted on is the lowest.
template <class Slot, class RecordSlot>
[[nodiscard]] auto flow_or_record(Slot slot, RecordSlot record_slot) {
  return by_month_or_record(slot, record_slot, flow_record, MonthTakes::Lowest, GapRule::Lower);
}

/// A value of a kind of its own, read by `read(const KeyValue&, Thing&)`.
template <class Read>
[[nodiscard]] Value<Read> own(Kind kind, Read read) {
  return {std::move(kind), std::move(read)};
}

}  // namespace leat::model
