#include "model/quantity/quantity_text.h"

#include <cstddef>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "model/quantity/amount_text.h"
#include "model/quantity/written_quantity.h"

namespace leat::model {
namespace {

constexpr Wanted wanted_length{UnitKind::Length, "a length", Sign::NeverNegative, 1e7};
constexpr Wanted wanted_level{UnitKind::Length, "a level", Sign::MayBeNegative, 1e5};
constexpr Wanted wanted_flow{UnitKind::Flow, "a flow", Sign::NeverNegative, 1e6};
constexpr Wanted wanted_volume{UnitKind::Volume, "a volume", Sign::NeverNegative, 1e12};
constexpr Wanted wanted_area{UnitKind::Area, "an area", Sign::NeverNegative, 1e12};
constexpr Wanted wanted_pressure{UnitKind::Pressure, "a pressure", Sign::NeverNegative, 1e13};
constexpr Wanted wanted_temperature{
    UnitKind::Temperature, "a temperature", Sign::MayBeNegative, 1000.0};
constexpr Wanted wanted_duration{UnitKind::Duration, "a time", Sign::NeverNegative, 1e10};
constexpr Wanted wanted_depth_rate{UnitKind::DepthRate, "a depth a day", Sign::NeverNegative, 1e-3};
constexpr Wanted wanted_speed{UnitKind::Speed, "a speed", Sign::NeverNegative, 1e4};

constexpr double largest_number = 1e15;
constexpr double coldest_celsius = -273.15;

const QuantityProblem* problem_in(const Parsed<Amount>& parsed) {
  return std::get_if<QuantityProblem>(&parsed);
}

constexpr std::string_view time_word = " in ";

bool starts_with_digit(std::string_view text) {
  return !text.empty() && text[0] >= '0' && text[0] <= '9';
}

/// A volume and the time it takes to fill, as a bucket and a watch give them.
Parsed<Amount> volume_in_time(std::string_view volume, std::string_view time) {
  const Parsed<Amount> filled = read_amount(volume, wanted_volume);
  if (const QuantityProblem* problem = problem_in(filled)) {
    return *problem;
  }
  const Parsed<Amount> took = read_amount(time, wanted_duration);
  if (const QuantityProblem* problem = problem_in(took)) {
    if (problem->code != "missing-unit") {
      return *problem;
    }
    return QuantityProblem{
        "missing-unit",
        problem->text,
        fmt::format("write {} in {} s or {} in {} min", volume, time, volume, time)};
  }
  const double time_s = std::get<Amount>(took).si;
  if (time_s <= 0.0) {
    return out_of_range(time, "is no time to fill anything");
  }
  return checked_amount(volume, Amount{std::get<Amount>(filled).si / time_s, nullptr}, wanted_flow);
}

Parsed<Amount> read_flow(std::string_view text) {
  text = without_outer_blanks(text);
  const std::size_t at = text.find(time_word);
  if (at != std::string_view::npos && starts_with_digit(text.substr(at + time_word.size()))) {
    return volume_in_time(text.substr(0, at), text.substr(at + time_word.size()));
  }
  return read_amount(text, wanted_flow);
}

template <class Value>
Parsed<Value> as(const Parsed<Amount>& parsed) {
  if (const QuantityProblem* problem = problem_in(parsed)) {
    return *problem;
  }
  return Value::from_si(std::get<Amount>(parsed).si);
}

}  // namespace

Parsed<Length> parse_length(std::string_view text) {
  return as<Length>(read_amount(text, wanted_length));
}

Parsed<Elevation> parse_elevation(std::string_view text) {
  return as<Elevation>(read_amount(text, wanted_level));
}

Parsed<Flow> parse_flow(std::string_view text) {
  return as<Flow>(read_flow(text));
}

Parsed<Volume> parse_volume(std::string_view text) {
  return as<Volume>(read_amount(text, wanted_volume));
}

Parsed<Area> parse_area(std::string_view text) {
  return as<Area>(read_amount(text, wanted_area));
}

Parsed<Pressure> parse_pressure(std::string_view text) {
  return as<Pressure>(read_amount(text, wanted_pressure));
}

Parsed<Temperature> parse_temperature(std::string_view text) {
  const Parsed<Amount> parsed = read_amount(text, wanted_temperature);
  const Amount* amount = std::get_if<Amount>(&parsed);
  if (amount != nullptr && amount->si < coldest_celsius) {
    return out_of_range(without_outer_blanks(text), "is colder than anything can be");
  }
  return as<Temperature>(parsed);
}

Parsed<Duration> parse_duration(std::string_view text) {
  return as<Duration>(read_amount(text, wanted_duration));
}

Parsed<DepthRate> parse_depth_rate(std::string_view text) {
  return as<DepthRate>(read_amount(text, wanted_depth_rate));
}

Parsed<Velocity> parse_speed(std::string_view text) {
  return as<Velocity>(read_amount(text, wanted_speed));
}

Parsed<double> parse_number(std::string_view text) {
  text = without_outer_blanks(text);
  const auto apart = take_apart(text);
  if (const QuantityProblem* problem = std::get_if<QuantityProblem>(&apart)) {
    return *problem;
  }
  const WrittenQuantity& written = std::get<WrittenQuantity>(apart);
  const WrittenPart& part = written.parts.front();
  if (written.parts.size() > 1 || !part.words.empty()) {
    const bool is_unit = written.parts.size() == 1 && find_unit(part.words) != nullptr;
    return QuantityProblem{is_unit ? "wrong-unit" : "not-a-number",
                           quoted(text) + " is more than a number",
                           "write " + (written.has_minus ? "-" + part.number : part.number)};
  }
  if (part.value > largest_number) {
    return out_of_range(text, "is too large");
  }
  return (written.has_minus ? -part.value : part.value) + 0.0;
}

Parsed<double> parse_share(std::string_view text) {
  text = without_outer_blanks(text);
  constexpr std::string_view hint = "write a fraction from 0 to 1, as 3/8 or 0.4, or 40 %";
  const bool is_percent = !text.empty() && text.back() == '%';
  if (is_percent) {
    text.remove_suffix(1);
    if (!text.empty() && text.back() == ' ') {
      text.remove_suffix(1);
    }
  }
  const Parsed<double> parsed = parse_number(text);
  if (const QuantityProblem* problem = std::get_if<QuantityProblem>(&parsed)) {
    return QuantityProblem{problem->code, problem->text, std::string(hint)};
  }
  const double share = std::get<double>(parsed) * (is_percent ? 0.01 : 1.0);
  if (share < 0.0 || share > 1.0) {
    const std::string shown = std::string(text) + (is_percent ? " %" : "");
    const bool means_percent = !is_percent && share >= 2.0 && share <= 100.0;
    return QuantityProblem{"out-of-range",
                           quoted(shown) + " is not between 0 and 1",
                           means_percent ? fmt::format("write {} %", text) : std::string(hint)};
  }
  return share;
}

Parsed<WrittenNeed> parse_need(std::string_view text) {
  text = without_outer_blanks(text);
  const Parsed<Amount> parsed = read_flow(text);
  if (const QuantityProblem* problem = problem_in(parsed)) {
    return *problem;
  }
  const Amount& amount = std::get<Amount>(parsed);
  constexpr std::string_view day = "/day";
  if (amount.unit == nullptr || !amount.unit->spelling.ends_with(day)) {
    return WrittenNeed(Flow::from_si(amount.si));
  }
  // Every flow a day is a volume before the stroke.
  text.remove_suffix(day.size());
  const Parsed<Volume> a_day = parse_volume(text);
  if (const QuantityProblem* problem = std::get_if<QuantityProblem>(&a_day)) {
    return *problem;
  }
  return WrittenNeed(std::get<Volume>(a_day));
}

Parsed<std::pair<Flow, Pressure>> parse_flow_at_pressure(std::string_view text) {
  constexpr std::string_view at_word = " at ";
  text = without_outer_blanks(text);
  const std::size_t at = text.find(at_word);
  const Parsed<Flow> flow = parse_flow(text.substr(0, at));
  if (const QuantityProblem* problem = std::get_if<QuantityProblem>(&flow)) {
    return *problem;
  }
  if (at == std::string_view::npos) {
    return QuantityProblem{"missing-unit",
                           quoted(text) + " names no pressure",
                           fmt::format("write {} at 40 psi", text)};
  }
  const Parsed<Pressure> pressure = parse_pressure(text.substr(at + at_word.size()));
  if (const QuantityProblem* problem = std::get_if<QuantityProblem>(&pressure)) {
    return *problem;
  }
  return std::pair(std::get<Flow>(flow), std::get<Pressure>(pressure));
}

}  // namespace leat::model
