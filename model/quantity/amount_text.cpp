#include "model/quantity/amount_text.h"

#include <cmath>
#include <cstddef>
#include <string>
#include <variant>

#include <fmt/format.h>

#include "model/quantity/other_spelling.h"
#include "model/quantity/written_quantity.h"

namespace leat::model {
namespace {

constexpr double smallest = 1e-15;  // [SI] below it an amount can only be a slip

/// "write 120 ft or 120 m", with the number as it was written.
std::string how_to_write(const WrittenQuantity& written, const Wanted& wanted) {
  const bool shows_minus = written.has_minus && wanted.sign == Sign::MayBeNegative;
  const std::string number = (shows_minus ? "-" : "") + written.parts.front().number;
  const UsualUnits usual = usual_units(wanted.kind);
  return fmt::format("write {} {} or {} {}", number, usual.us, number, usual.metric);
}

/// A number of any size in the fewest digits that matter to a reader.
std::string short_number(double value) {
  return fmt::format("{:.6g}", value);
}

std::string number_in_other_unit(const WrittenQuantity& written, double factor) {
  const WrittenPart& part = written.parts.front();
  const std::string sign = written.has_minus ? "-" : "";
  return sign + (factor == 1.0 ? part.number : short_number(part.value * factor));
}

/// The miner's inch is a different flow from state to state, so the file cannot hold one.
QuantityProblem miners_inch(std::string_view text, const WrittenPart& part) {
  constexpr double of_forty = 11.2208;  // [gal/min] 1/40 ft3/s
  constexpr double of_fifty = 8.97662;  // [gal/min] 1/50 ft3/s
  return {"unknown-unit",
          quoted(text) + " is not one flow: the miner's inch differs by state",
          fmt::format("write {:.3g} gal/min (at 40 to the ft3/s) or {:.3g} gal/min (at 50)",
                      part.value * of_forty,
                      part.value * of_fifty)};
}

QuantityProblem wrong_unit(std::string_view text,
                           const WrittenQuantity& written,
                           const Unit& found,
                           const Wanted& wanted) {
  QuantityProblem problem{
      "wrong-unit",
      fmt::format(
          "{} is {}, {} is wanted", quoted(text), kind_with_article(found.kind), wanted.words),
      how_to_write(written, wanted)};
  if (wanted.kind == UnitKind::Pressure && found.kind == UnitKind::Length) {
    const bool is_us = found.spelling == "ft" || found.spelling == "in" || found.spelling == "yd";
    problem.hint =
        fmt::format("write {} {}", written.parts.front().number, is_us ? "ft water" : "m water");
    if (found.spelling != "ft" && found.spelling != "m") {
      problem.hint = "write psi, kPa, ft water or m water";
    }
  }
  return problem;
}

/// The problem with words that are no unit.
QuantityProblem unknown_unit(std::string_view text,
                             const WrittenQuantity& written,
                             const WrittenPart& part,
                             const Wanted& wanted) {
  if (part.words.find("iner") != std::string::npos) {
    return miners_inch(text, part);
  }
  const OtherSpelling* other = find_other_spelling(part.words);
  const Unit* meant = other != nullptr ? find_unit(other->unit) : find_unit_in_any_case(part.words);
  QuantityProblem problem{"unknown-unit",
                          fmt::format("{} is not a unit leat knows", quoted(part.words)),
                          fmt::format("{} is in {}", wanted.words, units_of(wanted.kind))};
  if (meant != nullptr && meant->kind != wanted.kind) {
    return wrong_unit(text, written, *meant, wanted);
  }
  if (meant != nullptr && written.parts.size() == 1) {
    const double factor = other != nullptr ? other->factor : 1.0;
    problem.hint =
        fmt::format("write {} {}", number_in_other_unit(written, factor), meant->spelling);
  } else if (meant != nullptr) {
    problem.hint = fmt::format("write {} instead of {}", meant->spelling, part.words);
  }
  return problem;
}

/// An amount that has been read, with its sign, once sign and size are known to be sane.
Parsed<Amount> with_sign(std::string_view text,
                         const WrittenQuantity& written,
                         Amount amount,
                         const Wanted& wanted) {
  if (written.has_minus && wanted.sign == Sign::NeverNegative) {
    return out_of_range(text, fmt::format("is below zero, which {} never is", wanted.words));
  }
  return checked_amount(text, amount, wanted);
}

/// One number with one unit.
Parsed<Amount> single(std::string_view text, const WrittenQuantity& written, const Wanted& wanted) {
  const WrittenPart& part = written.parts.front();
  if (part.words.empty()) {
    return QuantityProblem{
        "missing-unit", quoted(text) + " has no unit", how_to_write(written, wanted)};
  }
  const Unit* unit = find_unit(part.words);
  if (unit == nullptr) {
    return unknown_unit(text, written, part, wanted);
  }
  if (unit->kind != wanted.kind) {
    return wrong_unit(text, written, *unit, wanted);
  }
  const double value = written.has_minus ? -part.value : part.value;
  return with_sign(text, written, {(value - unit->zero) * unit->factor, unit}, wanted);
}

QuantityProblem not_one_amount(std::string_view text, const Wanted& wanted) {
  if (wanted.kind == UnitKind::Length) {
    return {"not-a-number",
            quoted(text) + " is not feet and inches",
            "write whole feet, then inches: 6 ft 3 in"};
  }
  if (wanted.kind == UnitKind::Duration) {
    return {"not-a-number",
            quoted(text) + " is not one time",
            "write the longer unit first: 1 h 30 min or 1 min 12 s"};
  }
  return {
      "not-a-number", quoted(text) + " is more than one amount", "write one number and one unit"};
}

/// Several parts of falling units: "6 ft 3 in", "1 min 12 s". All but the last are whole numbers,
/// and no part reaches one of the unit before it.
Parsed<Amount> compound(std::string_view text,
                        const WrittenQuantity& written,
                        const Wanted& wanted) {
  double sum = 0.0;
  const Unit* before = nullptr;
  for (std::size_t i = 0; i < written.parts.size(); ++i) {
    const WrittenPart& part = written.parts[i];
    const Unit* unit = find_unit(part.words);
    if (part.words.empty()) {
      return QuantityProblem{"missing-unit",
                             fmt::format("{} has no unit after {}", quoted(text), part.number),
                             wanted.kind == UnitKind::Length
                                 ? "write feet and inches: 6 ft 3 in"
                                 : "write minutes and seconds: 1 min 12 s"};
    }
    if (unit == nullptr) {
      return unknown_unit(text, written, part, wanted);
    }
    if (unit->kind != wanted.kind) {
      return wrong_unit(text, written, *unit, wanted);
    }
    const bool is_feet_then_inches =
        unit->spelling == (i == 0 ? "ft" : "in") && written.parts.size() == 2;
    const bool falls = before == nullptr || unit->factor < before->factor;
    const bool fits = before == nullptr || part.value * unit->factor < before->factor;
    const bool is_whole = i + 1 == written.parts.size() || part.value == std::floor(part.value);
    if ((wanted.kind == UnitKind::Length && !is_feet_then_inches) || !falls || !fits || !is_whole) {
      return not_one_amount(text, wanted);
    }
    sum += part.value * unit->factor;
    before = unit;
  }
  const double signed_sum = written.has_minus ? -sum : sum;
  return with_sign(text, written, {signed_sum, find_unit(written.parts.front().words)}, wanted);
}

}  // namespace

QuantityProblem out_of_range(std::string_view text, std::string_view why) {
  return {"out-of-range", fmt::format("{} {}", quoted(text), why), ""};
}

Parsed<Amount> checked_amount(std::string_view text, Amount amount, const Wanted& wanted) {
  if (!std::isfinite(amount.si) || std::abs(amount.si) > wanted.largest) {
    return out_of_range(text, fmt::format("is too large for {}", wanted.words));
  }
  if (amount.si != 0.0 && std::abs(amount.si) < smallest && wanted.kind != UnitKind::Temperature) {
    return out_of_range(text, fmt::format("is too small for {}", wanted.words));
  }
  amount.si += 0.0;  // "-0 ft" is no different from "0 ft"
  return amount;
}

Parsed<Amount> read_amount(std::string_view text, const Wanted& wanted) {
  text = without_outer_blanks(text);
  const auto apart = take_apart(text);
  if (const QuantityProblem* problem = std::get_if<QuantityProblem>(&apart)) {
    return *problem;
  }
  const WrittenQuantity& written = std::get<WrittenQuantity>(apart);
  if (written.parts.size() == 1) {
    return single(text, written, wanted);
  }
  if (wanted.kind == UnitKind::Length || wanted.kind == UnitKind::Duration) {
    return compound(text, written, wanted);
  }
  return not_one_amount(text, wanted);
}

}  // namespace leat::model
