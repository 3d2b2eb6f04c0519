// The words for what a flow, a pressure or a level was taken with.
#pragma once

#include <array>
#include <string_view>

#include "model/farm/records.h"
#include "model/keys/value_reader.h"

namespace leat::model {

inline constexpr std::array<Word<Instrument>, 6> instrument_words = {
    {{"bucket", Instrument::Bucket},
     {"gauge", Instrument::Gauge},
     {"hand level", Instrument::HandLevel},
     {"builder's level", Instrument::BuildersLevel},
     {"water level", Instrument::WaterLevel},
     {"phone", Instrument::Phone}}};
/// Those that take levels and lengths.
inline constexpr std::array<Word<Instrument>, 4> survey_instrument_words = {
    {{"hand level", Instrument::HandLevel},
     {"builder's level", Instrument::BuildersLevel},
     {"water level", Instrument::WaterLevel},
     {"phone", Instrument::Phone}}};

}  // namespace leat::model
