// What a table of the screen tells, the JSON of the same run tells too: every command that has
// both, every farm of the tour.
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <regex>
#include <string>
#include <string_view>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/render/all_farms.h"
#include "tests/render/run_words.h"

namespace leat::render {

namespace {

using Json = nlohmann::ordered_json;
using Words = std::vector<std::string>;

constexpr double draws = 8.0;

/// From a figure of JSON to one of the screen: itself, L/s as L/min, share as per cent, m3 as L and
/// L as m3, a chance as a count of draws, mm as in.
constexpr double scales[] = {1.0, 60.0, 100.0, 1e3, 1e-3, draws, 1.0 / 25.4};

/// Tables and rows whose figures JSON does not hold, by words of their heading line or first cell,
/// and why.
struct LeftOut {
  std::string_view words;
  std::string_view why;
};
const LeftOut left_out[] = {
    {"this season",
     "a pond's amounts a day, week, month and year are those of the season in parts"},
    {"full on", "the days to a full pond are the difference of two dates"},
    {"dangers", "the flags that are counted stand there themselves"},
    {"cautions", "the flags that are counted stand there themselves"},
};

std::vector<Words> runs_on(const std::string& farm) {
  const Words season = {"season", farm, "--from", "2026-07-30", "--to", "2026-08-03"};
  Words spread = season;
  spread.insert(spread.end(), {"--spread", "8"});
  return {{"read", farm},
          {"solve", farm, "--verbose"},
          {"solve", farm, "--case", "static"},
          {"solve", farm, "--spread", "8"},
          {"profile", farm},
          {"prime", farm},
          {"improve", farm, "--sensitivities", "--verbose"},
          {"size", farm},
          season,
          spread};
}

/// The cells of a line of a table: two blanks or more part them.
Words cells_of(const std::string& line) {
  Words cells;
  std::size_t at = 0;
  while (at < line.size()) {
    const std::size_t gap = std::min(line.find("  ", at), line.size());
    if (gap > at) {
      cells.push_back(line.substr(at, gap - at));
    }
    at = line.find_first_not_of(' ', gap);
  }
  return cells;
}

void collect_numbers(const Json& node, std::vector<double>& numbers) {
  if (node.is_number()) {
    numbers.push_back(std::abs(node.get<double>()));
  } else if (node.is_structured()) {
    for (const Json& part : node) {
      collect_numbers(part, numbers);
    }
  }
}

/// Whether some number of JSON, scaled, is written so: rounded, or a share rounded down.
bool stands_in(const std::string& figure, const std::vector<double>& numbers) {
  const double shown = std::abs(std::strtod(figure.c_str(), nullptr));
  const std::size_t point = figure.find('.');
  const double decimals =
      point == std::string::npos ? 0.0 : static_cast<double>(figure.size() - point - 1);
  const double last_digit = std::pow(10.0, -decimals);
  return std::any_of(std::begin(scales), std::end(scales), [&](double scale) {
    const double slack = 1e-6 * shown + 1e-12;
    const bool rounds_down = scale == 100.0;
    const double below = (shown - 0.5 * last_digit - slack) / scale;
    const double above = (shown + (rounds_down ? 1.0 : 0.5 * last_digit) + slack) / scale;
    const auto at = std::lower_bound(numbers.begin(), numbers.end(), below);
    return at != numbers.end() && *at <= above;
  });
}

bool is_left_out(const std::string& text) {
  return std::any_of(std::begin(left_out), std::end(left_out), [&](const LeftOut& each) {
    return text.find(each.words) != std::string::npos;
  });
}

/// What JSON tells of a run. Under the answer itself a spread stands on the screen; in JSON the
/// answer is that of the same words without it.
Json told_by(Words words) {
  words.emplace_back("--json");
  Json all = Json::array({Json::parse(run_words(words).out)});
  const auto spread = std::find(words.begin(), words.end(), "--spread");
  if (spread != words.end()) {
    words.erase(spread, spread + 2);
    all.push_back(Json::parse(run_words(words).out));
  }
  return all;
}

/// Checks every figure of the tables; the number of figures.
int check_tables(const std::string& screen, const Json& json) {
  static const std::regex figure(R"(([+-]?[0-9]+(\.[0-9]+)?)( %| h| days| kWh)?)");
  std::vector<double> numbers;
  collect_numbers(json, numbers);
  std::sort(numbers.begin(), numbers.end());
  std::string heading;
  int checked = 0;
  std::size_t begin = 0;
  while (begin < screen.size()) {
    const std::size_t end = std::min(screen.find('\n', begin), screen.size());
    const std::string line = screen.substr(begin, end - begin);
    begin = end + 1;
    const Words cells = cells_of(line);
    const bool has_figure = std::any_of(cells.begin(), cells.end(), [](const std::string& cell) {
      return std::regex_match(cell, figure);
    });
    if (cells.size() < 2) {
      heading.clear();  // a sentence, or the end of a table
      continue;
    }
    if (heading.empty() && !has_figure) {
      heading = line;
      continue;
    }
    if (heading.empty() || is_left_out(heading) || is_left_out(cells[0])) {
      continue;
    }
    for (std::size_t i = 1; i < cells.size(); ++i) {
      std::smatch found;
      if (std::regex_match(cells[i], found, figure)) {
        CAPTURE(heading, line, cells[i]);
        CHECK(stands_in(found[1].str(), numbers));
        ++checked;
      }
    }
  }
  return checked;
}

}  // namespace

TEST_CASE("every figure in a table of the screen stands in the JSON of the same run") {
  int checked = 0;
  for (const std::string& farm : farms_in("networks-demo")) {
    for (Words words : runs_on(farm)) {
      words.insert(words.end(), {"--units", "metric"});
      CAPTURE(words);
      const Outcome screen = run_words(words);
      if (screen.status <= 1) {
        checked += check_tables(screen.out, told_by(words));
      }
    }
  }
  CHECK(checked > 2000);
}

TEST_CASE("every figure in a table of a catalogue stands in its JSON") {
  for (const char* const command : {"pipes", "fittings", "herd"}) {
    const Words words = {command, "--units", "metric"};
    CAPTURE(words);
    CHECK(check_tables(run_words(words).out, Json::parse(run_words({command, "--json"}).out)) > 10);
  }
}

TEST_CASE("farms beside each other show the figures of their JSON") {
  const std::vector<std::string> farms = farms_in("networks-demo");
  int checked = 0;
  for (const std::string& farm : farms) {
    const Words words = {
        "compare", farm, farm, "--from", "2026-08-01", "--to", "2026-08-03", "--units", "metric"};
    CAPTURE(words);
    Words json_words = words;
    json_words.emplace_back("--json");
    const Outcome json = run_words(json_words);
    if (json.status <= 1) {
      checked += check_tables(run_words(words).out, Json::parse(json.out));
    }
  }
  CHECK(checked > 50);
}

}  // namespace leat::render
