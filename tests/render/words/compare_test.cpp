#include "render/words/compare.h"

#include <algorithm>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::render {

namespace {

constexpr auto metric = model::UnitSystem::Metric;

std::string said(solver::DifferingThing what) {
  return difference_words({1, std::move(what)}, "thin", metric);
}

}  // namespace

TEST_CASE("a wider pipe is told by the trough that gains and by the pipe it takes", "[compare]") {
  const auto text = [](const std::string& bore) {
    return "farm: Croft\n"
           "springs: {well: {overflow: 12 m, yield: 30 L/min}}\n"
           "troughs: {low: {float: 10 m, need: 9 L/min}}\n"
           "pipes: {line: {from: well, to: low, size: " +
           bore + ", length: 300 m}}\n";
  };
  const model::Farm thin = tests::farm_of(text("20 mm PE100 SDR 11"));
  const model::Farm wide = tests::farm_of(text("40 mm PE100 SDR 11"));
  const solver::Comparison found = solver::compare_farms({&thin, &wide}, {});
  std::vector<std::string> words;
  for (const solver::Difference& difference : solver::differences({&thin, &wide}, found)) {
    words.push_back(difference_words(difference, "thin", metric));
  }
  const auto told = [&words](const std::string& part) {
    return std::any_of(words.begin(), words.end(), [&part](const std::string& sentence) {
      return sentence.find(part) != std::string::npos;
    });
  };
  CHECK(told("'low' gets 9 L/min instead of"));
  CHECK(told("all it needs"));
  CHECK(told("300 m more of 40 mm PE100 SDR 11"));
  CHECK(told("300 m less of 20 mm PE100 SDR 11"));
  CHECK(told("no more caution: starved at 'low'"));
}

TEST_CASE("the first day short is told by how much later it comes", "[compare]") {
  const model::Date june{2026, 6, 30};
  const model::Date july{2026, 7, 1};
  CHECK(said(solver::FirstDryDay{"low", july, june}) ==
        "'low' first goes short on 2026-07-01, 1 day later");
  CHECK(said(solver::FirstDryDay{"low", june, july}) ==
        "'low' first goes short on 2026-06-30, 1 day earlier");
  CHECK(said(solver::FirstDryDay{"low", {}, july}) ==
        "'low' never goes short; in thin it does on 2026-07-01");
  CHECK(said(solver::FirstDryDay{"low", july, {}}) ==
        "'low' goes short on 2026-07-01; in thin it never does");
}

TEST_CASE("nothing that differs is said", "[compare]") {
  CHECK(said(solver::NothingDiffers{}) == "nothing differs from thin that leat can tell");
}

TEST_CASE("what falls short never reads 100 %", "[compare]") {
  CHECK(share_words(0.9949) == "99 %");
  CHECK(share_words(1.0) == "100 %");
  CHECK(share_words(0.0) == "0 %");
}

TEST_CASE("moving parts are counted in words", "[compare]") {
  CHECK(parts_words({}) == "none");
  CHECK(parts_words({2, 1, 0, 0, 1, 0}) == "2 floats, 1 foot valve, 1 ram");
}

}  // namespace leat::render
