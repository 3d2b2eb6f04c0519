// The keys of what the keeper measured, and what levels were taken with.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "model/farm/records.h"
#include "model/keys/key.h"
#include "model/keys/name_registry.h"

namespace leat::model {

/// One measurement while it is read, and what it must know of the farm.
struct MeasuredDraft {
  Measurement measured;
  const Farm& farm;
  const NameRegistry& names;
};

[[nodiscard]] const Keys<MeasuredDraft>& measured_keys();

/// A date, year-month-day (code not-a-date).
[[nodiscard]] std::optional<Date> read_date(const YamlNode& node,
                                            const std::string& what,
                                            ProblemList& problems);

/// The list `measured`: flows, pressures and levels with place, day and instrument, into
/// `farm.measured`. Codes: unknown-place, missing-key, contradictory, not-a-date, unknown-word,
/// wrong-instrument, measures-nothing (what no such place has: a tee's flow, open water's
/// pressure).
void read_measured(const YamlNode& node,
                   const NameRegistry& names,
                   Farm& farm,
                   LoadContext& context);

/// The time a flow written as VOLUME in TIME took to fill [s], 0 for any other.
[[nodiscard]] double filling_time_s(std::string_view flow);

/// The instrument as the file spells it; empty where nothing was said.
[[nodiscard]] std::string_view word_of(Instrument instrument);

}  // namespace leat::model
