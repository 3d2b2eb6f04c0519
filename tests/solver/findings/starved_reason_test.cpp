// Why a trough goes short: one sentence, true by its own figures.
#include "solver/findings/starved_reason.h"

#include <cmath>
#include <cstdlib>

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::tests {

using solver::PlaceState;

namespace {

bool says(const std::string& sentence, const std::string& part) {
  return sentence.find(part) != std::string::npos;
}

/// The number written just before a piece of the sentence: "1.95" before " m above".
double figure_before(const std::string& sentence, const std::string& part) {
  const std::size_t end = sentence.find(part);
  REQUIRE(end != std::string::npos);
  const std::size_t space = sentence.rfind(' ', end - 1);
  const std::size_t start = sentence.find_first_of("0123456789.", space + 1);
  return std::strtod(sentence.c_str() + start, nullptr);
}

}  // namespace

TEST_CASE("a trough that gets what it needs is not explained") {
  const SolvedFarm farm = solved(R"(
farm: enough
creeks: {c: {surface: 100 m}}
troughs: {low: {float: 95 m, need: 0.1 L/s}}
pipes: {a: {from: c, to: low, size: 1 in SIDR 15, length: 60 m}}
)");
  CHECK(farm.flag(solver::Code::Starved, "low") == nullptr);
  CHECK(farm.flag(solver::Code::Dry, "low") == nullptr);
  CHECK(farm.place("low").met.value() == Approx(1.0));
  CHECK(farm.place("low").state == PlaceState::Ok);
  CHECK(farm.place("low").delivered_m3_s == Approx(litres(0.1)));
}

}  // namespace leat::tests
