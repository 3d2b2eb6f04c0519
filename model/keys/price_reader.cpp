#include "model/keys/price_reader.h"

#include <algorithm>
#include <cctype>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include "model/catalogue/fitting_catalogue.h"
#include "model/catalogue/pipe_catalogue.h"
#include "model/keys/map_reader.h"
#include "model/keys/value_reader.h"
#include "model/quantity/amount_text.h"
#include "model/quantity/written_quantity.h"

namespace leat::model {
namespace {

constexpr double most_money = 1e6;
constexpr Range<Length> stock_range{millimetres(1.0), metres(1e6), "from 1 mm to 1000 km", true};
constexpr std::string_view per_word = " per ";
constexpr std::string_view each_word = " each";

bool is_plain(char letter) {
  return std::isdigit(static_cast<unsigned char>(letter)) != 0 || letter == '.';
}

/// A sum of money without its sign.
Parsed<double> parse_money(std::string_view text, std::string_view behind) {
  text = without_outer_blanks(text);
  const Parsed<double> parsed = parse_number(text);
  if (std::holds_alternative<QuantityProblem>(parsed)) {
    const auto digit = std::find_if(text.begin(), text.end(), is_plain);
    std::string bare(digit, text.end());
    while (!bare.empty() && !is_plain(bare.back())) {
      bare.pop_back();
    }
    if (!bare.empty() && std::holds_alternative<double>(parse_number(bare))) {
      return QuantityProblem{"not-a-number",
                             quoted(text) + " is not a bare number",
                             fmt::format("leave the money's sign out: write {}{}", bare, behind)};
    }
    return parsed;
  }
  const double money = std::get<double>(parsed);
  if (money < 0.0 || money > most_money) {
    return out_of_range(text, "it must be from 0 to 1000000");
  }
  return money;
}

/// The number in front and the length behind: "62 per 100 ft", "0.62/ft".
std::optional<std::pair<std::string_view, std::string_view>> split_rate(std::string_view text) {
  const std::size_t per = text.find(per_word);
  if (per != std::string_view::npos) {
    return std::pair(text.substr(0, per), text.substr(per + per_word.size()));
  }
  // The last one: "3/4/ft" is three quarters for a foot, and "3/4" alone is no rate.
  const std::size_t slash = text.rfind('/');
  const std::string_view behind =
      slash == std::string_view::npos ? std::string_view() : text.substr(slash + 1);
  if (slash == std::string_view::npos ||
      std::none_of(behind.begin(), behind.end(), [](char letter) {
        return std::isalpha(static_cast<unsigned char>(letter)) != 0;
      })) {
    return std::nullopt;
  }
  return std::pair(text.substr(0, slash), behind);
}

template <class Value>
std::optional<Value> read_money(const YamlNode& node,
                                const std::string& what,
                                Parsed<Value> (*parse)(std::string_view),
                                ProblemList& problems) {
  return read_value(node, what, parse, problems);
}

bool report_repeat(bool seen,
                   const YamlEntry& entry,
                   std::string_view section,
                   std::string code,
                   ProblemList& problems) {
  if (seen) {
    problems.add(std::move(code),
                 entry.position,
                 fmt::format("{} has '{}' twice, spelt another way", section, entry.key),
                 "keep one of them");
  }
  return seen;
}

void read_pipe_price(const YamlEntry& entry,
                     const PipeSize& size,
                     Farm& farm,
                     ProblemList& problems) {
  const auto money = read_money(
      entry.value, fmt::format("prices of {}", entry.key), parse_money_per_length, problems);
  const bool seen = std::any_of(farm.pipe_prices.begin(),
                                farm.pipe_prices.end(),
                                [&](const PipePrice& price) { return price.size == size.text; });
  if (!report_repeat(seen, entry, "prices", "repeated-price", problems) && money) {
    farm.pipe_prices.push_back({size.text, *money});
  }
}

void read_fitting_price(const YamlEntry& entry,
                        const CatalogueFitting& fitting,
                        Farm& farm,
                        ProblemList& problems) {
  const auto money =
      read_money(entry.value, fmt::format("prices of {}", entry.key), parse_money_each, problems);
  const bool seen = std::any_of(
      farm.fitting_prices.begin(), farm.fitting_prices.end(), [&](const FittingPrice& price) {
        return price.fitting == fitting.name;
      });
  if (!report_repeat(seen, entry, "prices", "repeated-price", problems) && money) {
    farm.fitting_prices.push_back({fitting.name, *money});
  }
}

std::vector<std::string> fitting_names() {
  std::vector<std::string> names;
  for (const CatalogueFitting& fitting : fitting_catalogue()) {
    names.push_back(fitting.name);
  }
  return names;
}

/// The nearest fitting where one is near, else the nearest sizes.
std::string price_hint(const std::string& key) {
  const std::string near = did_you_mean(key, fitting_names());
  if (!near.empty()) {
    return near;
  }
  const std::vector<std::string> sizes = nearest_pipe_sizes(key);
  return fmt::format(
      "nearest are '{}' and '{}'; 'leat pipes' and 'leat fittings' list all", sizes[0], sizes[1]);
}

}  // namespace

Parsed<double> parse_money_per_length(std::string_view text) {
  text = without_outer_blanks(text);
  const auto parts = split_rate(text);
  if (!parts) {
    return QuantityProblem{"missing-unit",
                           quoted(text) + " does not say for what length",
                           "write 0.62 per ft, 0.62/ft or 62 per 100 ft"};
  }
  const std::string_view behind = without_outer_blanks(parts->second);
  const Parsed<double> money = parse_money(parts->first, fmt::format(" per {}", behind));
  if (const auto* const problem = std::get_if<QuantityProblem>(&money)) {
    return *problem;
  }
  const bool counted = !behind.empty() && std::isdigit(static_cast<unsigned char>(behind[0])) != 0;
  const Parsed<Length> length =
      parse_length(counted ? std::string(behind) : fmt::format("1 {}", behind));
  if (const auto* const problem = std::get_if<QuantityProblem>(&length)) {
    return *problem;
  }
  const double length_m = in_metres(std::get<Length>(length));
  if (length_m < 1e-3 || std::get<double>(money) / length_m > most_money) {
    return out_of_range(text, "no pipe costs more than 1000000 a metre");
  }
  return std::get<double>(money) / length_m;
}

Parsed<double> parse_money_each(std::string_view text) {
  text = without_outer_blanks(text);
  if (text.ends_with(each_word)) {
    text.remove_suffix(each_word.size());
  }
  return parse_money(text, "");
}

void read_prices(const YamlNode& node, Farm& farm, ProblemList& problems) {
  if (node.kind != YamlNode::Kind::Map) {
    report_wrong_shape(
        node, "prices", "keys with values, such as {1 in SIDR 15: 0.62 per ft}, are", problems);
    return;
  }
  for (const YamlEntry& entry : node.entries) {
    if (const std::optional<PipeSize> size = find_pipe_size(entry.key)) {
      read_pipe_price(entry, *size, farm, problems);
    } else if (const CatalogueFitting* const fitting = find_fitting(entry.key)) {
      read_fitting_price(entry, *fitting, farm, problems);
    } else {
      problems.add("unknown-price",
                   entry.position,
                   fmt::format("prices: '{}' is neither a pipe size nor a fitting", entry.key),
                   price_hint(entry.key));
    }
  }
}

void read_stock(const YamlNode& node, Farm& farm, ProblemList& problems) {
  if (node.kind != YamlNode::Kind::Map) {
    report_wrong_shape(
        node, "stock", "keys with values, such as {1 in SIDR 15: 200 ft}, are", problems);
    return;
  }
  for (const YamlEntry& entry : node.entries) {
    const auto length = read_within(
        entry.value, fmt::format("stock of {}", entry.key), parse_length, stock_range, problems);
    const std::optional<PipeSize> size = find_pipe_size(entry.key);
    if (!size) {
      const std::vector<std::string> near = nearest_pipe_sizes(entry.key);
      problems.add("unknown-size",
                   entry.position,
                   fmt::format("stock: '{}' is not in the pipe catalogue", entry.key),
                   fmt::format("nearest are '{}', '{}' and '{}'", near[0], near[1], near[2]));
      continue;
    }
    const bool seen = std::any_of(farm.stock.begin(), farm.stock.end(), [&](const PipeStock& held) {
      return held.size == size->text;
    });
    if (!report_repeat(seen, entry, "stock", "repeated-stock", problems) && length) {
      farm.stock.push_back({size->text, *length});
    }
  }
}

}  // namespace leat::model
