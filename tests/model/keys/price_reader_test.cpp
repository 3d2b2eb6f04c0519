// Prices and stock as people write them.
#include "model/keys/price_reader.h"

#include <string>
#include <variant>

#include <catch2/catch.hpp>

#include "model/keys/farm_file.h"

namespace leat::model {
namespace {

double per_metre(const std::string& text) {
  const auto parsed = parse_money_per_length(text);
  REQUIRE(std::holds_alternative<double>(parsed));
  return std::get<double>(parsed);
}

QuantityProblem problem_of(const std::string& text) {
  const auto parsed = parse_money_per_length(text);
  REQUIRE(std::holds_alternative<QuantityProblem>(parsed));
  return std::get<QuantityProblem>(parsed);
}

LoadedFarm farm_with(const std::string& more) {
  return load_farm(
      "farm: f\ncreeks: {c: {surface: 9 m}}\nponds: {p: {surface: 2 m}}\n"
      "pipes: {a: {from: c, to: p, size: 1 in SIDR 15, length: 60 m}}\n" +
          more,
      "f.yaml");
}

}  // namespace

TEST_CASE("Pipe is priced by the foot, the metre or the roll", "[prices]") {
  CHECK(per_metre("0.62 per ft") == Approx(0.62 / 0.3048));
  CHECK(per_metre("0.62/ft") == Approx(0.62 / 0.3048));
  CHECK(per_metre("62 per 100 ft") == Approx(0.62 / 0.3048));
  CHECK(per_metre("3/4 per ft") == Approx(0.75 / 0.3048));
  CHECK(per_metre("1.80 per m") == Approx(1.80));
  CHECK(per_metre("90 / 50 m") == Approx(1.80));
  CHECK(per_metre("0 per m") == 0.0);
}

TEST_CASE("A price without a length, with a money sign or of no sense is told how to be written",
          "[prices]") {
  CHECK(problem_of("0.62").code == "missing-unit");
  CHECK(problem_of("3/4").code == "missing-unit");
  CHECK(problem_of("$0.62 per ft").hint == "leave the money's sign out: write 0.62 per ft");
  CHECK(problem_of("-1 per ft").code == "out-of-range");
  CHECK(problem_of("1 per gal").code == "wrong-unit");
  CHECK(problem_of("1 per 0 ft").code == "out-of-range");
  CHECK(problem_of("cheap per ft").code == "not-a-number");
}

TEST_CASE("A price stands beside the size or fitting it is for, in the catalogue's spelling",
          "[prices]") {
  const LoadedFarm loaded = farm_with(
      "prices: {1  IN sidr 15: 0.5 per m, elbow: 2.40, ball valve: 9 each}\n"
      "stock: {1-1/4 in DR 11: 40 m}\n");
  REQUIRE(loaded.farm);
  REQUIRE(loaded.farm->pipe_prices.size() == 1);
  CHECK(loaded.farm->pipe_prices[0].size == "1 in SIDR 15");
  CHECK(loaded.farm->pipe_prices[0].per_metre == Approx(0.5));
  REQUIRE(loaded.farm->fitting_prices.size() == 2);
  CHECK(loaded.farm->fitting_prices[0].each == Approx(2.4));
  CHECK(loaded.farm->fitting_prices[1].each == Approx(9.0));
  REQUIRE(loaded.farm->stock.size() == 1);
  CHECK(in_metres(loaded.farm->stock[0].length) == Approx(40.0));
}

TEST_CASE("A price of a thing leat does not know, or given twice, is refused", "[prices]") {
  const LoadedFarm unknown = farm_with("prices: {elbo: 2}\n");
  REQUIRE(unknown.problems.size() == 1);
  CHECK(unknown.problems[0].code == "unknown-price");
  CHECK(unknown.problems[0].hint == "did you mean 'elbow'?");
  const LoadedFarm twice = farm_with("prices: {1 in SIDR 15: 1 per m, 1 in sidr 15: 2 per m}\n");
  REQUIRE(twice.problems.size() == 1);
  CHECK(twice.problems[0].code == "repeated-price");
  const LoadedFarm stock = farm_with("stock: {1 in SIDR 16: 20 m}\n");
  REQUIRE(stock.problems.size() == 1);
  CHECK(stock.problems[0].code == "unknown-size");
}

}  // namespace leat::model
