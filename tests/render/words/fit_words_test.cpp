// What a fit says: its verdict, its causes, what to do next.
#include <string>

#include <catch2/catch.hpp>

#include "render/words/fit_causes.h"
#include "render/words/fit_next.h"
#include "tests/support/farm_text.h"

namespace leat::render {

namespace {

using tests::farm_of;

const std::string two_ends =
    "farm: Test\n"
    "creeks: {pool: {surface: 60 m}}\n"
    "tees: {fork: 45 m, joint: 50 m}\n"
    "outlets: {low: {level: 40 m, opening: 8 mm}, high: {level: 46 m, opening: 8 mm}}\n"
    "pipes:\n"
    "  upper: {from: pool, to: joint, size: {bore: 26.6 mm}, length: 105 m, fittings: [strainer]}\n"
    "  lower: {from: joint, to: fork, size: {bore: 26.6 mm}, length: 95 m}\n"
    "  to low: {from: fork, to: low, size: {bore: 20.9 mm}, length: 100 m}\n"
    "  to high: {from: fork, to: high, size: {bore: 20.9 mm}, length: 80 m}\n";

constexpr auto metric = model::UnitSystem::Metric;

struct Said {
  std::string verdict;
  std::string first;
  std::string next;
};

Said said_of(const std::string& text) {
  const model::Farm farm = farm_of(text);
  const solver::FitAnswer answer = solver::fit(farm, {});
  REQUIRE(answer.result.solved);
  return {fit_verdict(answer),
          answer.result.entries.empty() ? "" : sentence_of_entry(farm, answer, 0, metric).text(),
          fit_next(farm, answer, metric)};
}

bool holds(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("a kink on one of two pipes in line names the line, and the gauge that parts them",
          "[fit]") {
  // The lower pipe with a K of 200 more, as `solve --case wide` has it.
  const Said said = said_of(two_ends +
                            "measured:\n"
                            "  - {at: low, flow: 0.27215 L/s, with: bucket}\n"
                            "  - {at: high, flow: 0.14640 L/s, with: bucket}\n"
                            "  - {at: fork, pressure: 32.703 kPa, with: gauge}\n");
  CAPTURE(said.verdict, said.first, said.next);
  CHECK(said.first.find("somewhere in the line from pool to fork: ") == 0);
  CHECK(said.next.find("measure the pressure at joint: about ") == 0);
  CHECK(holds(said.next, "if it is at lower"));
  CHECK(holds(said.next, "if it is at upper"));
}

TEST_CASE("readings that no single cause can bring about are said to be unexplained", "[fit]") {
  const Said said = said_of(two_ends +
                            "measured:\n"
                            "  - {at: low, flow: 60 L/min}\n"
                            "  - {at: high, flow: 0.2 L/min}\n"
                            "  - {at: fork, pressure: 12 kPa}\n");
  CHECK(holds(said.verdict, "No single cause"));
  CHECK_FALSE(said.next.empty());
}

TEST_CASE("one reading never names a single culprit and says what to measure next", "[fit]") {
  const Said said = said_of(two_ends + "measured:\n  - {at: low, flow: 8 L/min, with: bucket}\n");
  CHECK(holds(said.verdict, "One reading cannot say which"));
  CHECK(said.next.find("measure") == 0);
}

TEST_CASE("one reading of one pipe is a list of what to look at", "[fit]") {
  const Said said = said_of(
      "farm: One\n"
      "creeks: {pool: {surface: 60 m}}\n"
      "outlets: {end: {level: 40 m}}\n"
      "pipes: {line: {from: pool, to: end, size: {bore: 26.6 mm}, length: 200 m, "
      "fittings: [strainer]}}\n"
      "measured: [{at: end, flow: 10 L/min, with: bucket}]\n");
  CHECK(holds(said.verdict, "One reading cannot say which"));
  CHECK(holds(said.next, "the screen at the start of line"));
  CHECK(holds(said.next, "a gauge let into line halfway"));
}

TEST_CASE("readings as computed are said to need nothing", "[fit]") {
  solver::FitAnswer answer;
  answer.result.verdict = solver::FitVerdict::Agrees;
  answer.next = solver::NothingMore{};
  CHECK(holds(fit_verdict(answer), "nothing to explain"));
  CHECK(holds(fit_next({}, answer, metric), "no more is needed"));
}

TEST_CASE("a cause that no file can hold is said to want mending on the ground", "[fit]") {
  const model::Farm farm = farm_of(two_ends);
  solver::FitAnswer answer;
  solver::FitEntry entry;
  entry.causes.emplace_back();
  entry.causes.back().site.kind = solver::CauseKind::LeakAtTee;
  entry.causes.back().site.index = 1;
  answer.result.entries.push_back(entry);
  solver::CopyWithCause copy;
  copy.refusal = solver::CopyRefusal::CannotBeWritten;
  CHECK(copy_problem(farm, answer, copy).text == "leak at fork cannot be written into a farm file");
}

TEST_CASE("a place's name may hold the words that join alternatives", "[fit]") {
  EntrySentence sentence{{"a leak of 2 L/min at a or b", "the valve of x standing 3 % open"},
                         ": 31 % likely"};
  CHECK(sentence.text() ==
        "a leak of 2 L/min at a or b, or the valve of x standing 3 % open: 31 % likely");
}

}  // namespace leat::render
