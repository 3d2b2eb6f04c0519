// What explains a line that gives less than it should.
#include "solver/fit/fit.h"

#include <algorithm>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "solver/fit/farm_with_cause.h"
#include "tests/support/farm_text.h"

namespace leat::solver {

namespace {

using tests::farm_of;

const std::string two_ends =
    "farm: Test\n"
    "# a remark that must stay\n"
    "creeks: {pool: {surface: 60 m}}\n"
    "tees: {fork: 45 m}\n"
    "outlets: {low: {level: 40 m, opening: 8 mm}, high: {level: 46 m, opening: 8 mm}}\n"
    "pipes:\n"
    "  main: {from: pool, to: fork, size: {bore: 26.6 mm}, length: 200 m, fittings: [strainer]}\n"
    "  to low: {from: fork, to: low, size: {bore: 20.9 mm}, length: 100 m}\n"
    "  to high: {from: fork, to: high, size: {bore: 20.9 mm}, length: 80 m}\n";

/// The same with a tee halfway down the main, where nothing leaves.
const std::string two_parts =
    "farm: Test\n"
    "creeks: {pool: {surface: 60 m}}\n"
    "tees: {fork: 45 m, joint: 50 m}\n"
    "outlets: {low: {level: 40 m, opening: 8 mm}, high: {level: 46 m, opening: 8 mm}}\n"
    "pipes:\n"
    "  upper: {from: pool, to: joint, size: {bore: 26.6 mm}, length: 105 m, fittings: [strainer]}\n"
    "  lower: {from: joint, to: fork, size: {bore: 26.6 mm}, length: 95 m}\n"
    "  to low: {from: fork, to: low, size: {bore: 20.9 mm}, length: 100 m}\n"
    "  to high: {from: fork, to: high, size: {bore: 20.9 mm}, length: 80 m}\n";

/// Lines of `measured` with what a changed farm gives at its ends and at the fork.
std::string measured_of(const std::string& truth) {
  const tests::SolvedFarm found = tests::solved(truth, LoadCase::Wide);
  return fmt::format(
      "measured:\n"
      "  - {{at: low, flow: {:.5f} L/s, with: bucket}}\n"
      "  - {{at: high, flow: {:.5f} L/s, with: bucket}}\n"
      "  - {{at: fork, pressure: {:.3f} kPa, with: gauge}}\n",
      found.place("low").delivered_m3_s * 1e3,
      found.place("high").delivered_m3_s * 1e3,
      *found.place("fork").pressure_Pa * 1e-3);
}

std::string with(std::string text, const std::string& old_words, const std::string& new_words) {
  return text.replace(text.find(old_words), old_words.size(), new_words);
}

const std::string& spot_of(const model::Farm& farm, const FittedCause& cause) {
  return cause.site.at_pipe ? farm.pipes[cause.site.index].name
                            : farm.places[cause.site.index].name;
}

std::vector<std::string> names_of_spots(const model::Farm& farm, const FitEntry& entry) {
  std::vector<std::string> names;
  for (const std::size_t cause : distinct_spots(entry)) {
    names.push_back(spot_of(farm, entry.causes[cause]));
  }
  return names;
}

bool names(const FitEntry& entry, CauseKind kind) {
  return std::any_of(entry.causes.begin(), entry.causes.end(), [kind](const FittedCause& cause) {
    return cause.site.kind == kind;
  });
}

}  // namespace

TEST_CASE("a screen blocked in secret is found with its loss, silt in the pipe named beside it",
          "[fit]") {
  const std::string truth = with(two_ends, "[strainer]", "[strainer, {k 150: start}]");
  const model::Farm farm = farm_of(two_ends + measured_of(truth));
  const FitAnswer answer = fit(farm, {});
  REQUIRE(answer.result.verdict == FitVerdict::Explained);
  const FitEntry& first = answer.result.entries.front();
  CHECK(spot_of(farm, first.causes.front()) == "main");
  CHECK(names(first, CauseKind::BlockedScreen));
  CHECK(names(first, CauseKind::SiltedPipe));
  for (const FittedCause& cause : first.causes) {
    if (cause.site.kind == CauseKind::BlockedScreen) {
      CHECK(cause.size == Approx(150.0).epsilon(0.02));
      CHECK(cause.low < 150.0);
      CHECK(cause.high > 150.0);
    }
  }
}

TEST_CASE("a kink in a branch is not laid on the main", "[fit]") {
  const std::string truth = with(two_ends, "length: 100 m}", "length: 100 m, fittings: [k 200]}");
  const model::Farm farm = farm_of(two_ends + measured_of(truth));
  const FitAnswer answer = fit(farm, {});
  REQUIRE_FALSE(answer.result.entries.empty());
  CHECK(spot_of(farm, answer.result.entries.front().causes.front()) != "main");
  CHECK(names(answer.result.entries.front(), CauseKind::KinkedPipe));
}

TEST_CASE("pipes of one line that no reading tells apart are one answer that names them all",
          "[fit]") {
  const std::string truth = with(two_parts, "length: 95 m", "length: 95 m, fittings: [k 200]");
  const model::Farm farm = farm_of(two_parts + measured_of(truth));
  const FitAnswer answer = fit(farm, {});
  REQUIRE(answer.result.verdict == FitVerdict::Explained);
  const FitEntry& first = answer.result.entries.front();
  REQUIRE(first.line);
  const std::vector<std::string> places = names_of_spots(farm, first);
  CHECK(std::count(places.begin(), places.end(), "upper") == 1);
  CHECK(std::count(places.begin(), places.end(), "lower") == 1);
  CHECK(std::count(places.begin(), places.end(), "to low") == 0);
  CHECK(farm.places[first.line->from].name == "pool");
  CHECK(farm.places[first.line->to].name == "fork");
  // What would part them is the pressure where they meet.
  const auto* const step = std::get_if<TakeReading>(&answer.next);
  REQUIRE(step != nullptr);
  CHECK(step->reading.spot.kind == model::Measurement::Kind::Pressure);
  CHECK(farm.places[step->reading.spot.place].name == "joint");
  for (const std::string pipe : {"lower", "upper"}) {
    CHECK(std::any_of(step->reading.expected.begin(),
                      step->reading.expected.end(),
                      [&](const ExpectedReading& one) {
                        return one.entry == 0 && spot_of(farm, first.causes[one.cause]) == pipe;
                      }));
  }
}

TEST_CASE("a gauge where two pipes meet tells which of them is kinked", "[fit]") {
  const std::string truth = with(two_parts, "length: 95 m", "length: 95 m, fittings: [k 200]");
  const double pressure_Pa = *tests::solved(truth, LoadCase::Wide).place("joint").pressure_Pa;
  const model::Farm farm = farm_of(
      two_parts + measured_of(truth) +
      fmt::format("  - {{at: joint, pressure: {:.3f} kPa, with: gauge}}\n", pressure_Pa * 1e-3));
  const FitAnswer answer = fit(farm, {});
  REQUIRE(answer.result.verdict == FitVerdict::Explained);
  const std::vector<std::string> places = names_of_spots(farm, answer.result.entries.front());
  CHECK(std::count(places.begin(), places.end(), "lower") == 1);
  CHECK(std::count(places.begin(), places.end(), "upper") == 0);
}

TEST_CASE("readings as computed need no cause", "[fit]") {
  const FitAnswer answer = fit(farm_of(two_ends + measured_of(two_ends)), {});
  CHECK(answer.result.verdict == FitVerdict::Agrees);
  CHECK(answer.result.entries.empty());
  CHECK(std::holds_alternative<NothingMore>(answer.next));
}

TEST_CASE("readings that no single cause can bring about are said to be unexplained", "[fit]") {
  // More water at one end than all its fall could bring, none at the other, a high pressure.
  const FitAnswer answer = fit(farm_of(two_ends + "measured:\n"
                                                  "  - {at: low, flow: 60 L/min}\n"
                                                  "  - {at: high, flow: 0.2 L/min}\n"
                                                  "  - {at: fork, pressure: 12 kPa}\n"),
                               {});
  CHECK(answer.result.verdict == FitVerdict::Unexplained);
  CHECK_FALSE(std::holds_alternative<NothingMore>(answer.next));
}

TEST_CASE("one reading never names a single culprit and says what to measure next", "[fit]") {
  const FitAnswer answer =
      fit(farm_of(two_ends + "measured:\n  - {at: low, flow: 8 L/min, with: bucket}\n"), {});
  REQUIRE(answer.result.verdict == FitVerdict::Explained);
  CHECK(answer.result.entries.size() >= 2);
  CHECK(std::none_of(answer.result.entries.begin(),
                     answer.result.entries.end(),
                     [](const FitEntry& entry) { return entry.line.has_value(); }));
  CHECK(std::holds_alternative<TakeReading>(answer.next));
}

TEST_CASE("one reading of one pipe is a list of what may be wrong and where to read next",
          "[fit]") {
  const FitAnswer answer = fit(farm_of("farm: One\n"
                                       "creeks: {pool: {surface: 60 m}}\n"
                                       "outlets: {end: {level: 40 m}}\n"
                                       "pipes: {line: {from: pool, to: end, size: {bore: 26.6 mm}, "
                                       "length: 200 m, fittings: [strainer]}}\n"
                                       "measured: [{at: end, flow: 10 L/min, with: bucket}]\n"),
                               {});
  CHECK(answer.result.entries.size() >= 2);
  const auto* const step = std::get_if<LookAt>(&answer.next);
  REQUIRE(step != nullptr);
  CHECK(std::any_of(step->sites.begin(), step->sites.end(), [](const FitSite& site) {
    return site.kind == CauseKind::BlockedScreen;
  }));
  CHECK(step->halved == 0);  // the line
}

TEST_CASE("the chances of all that may be wrong add to one", "[fit]") {
  const std::string truth = with(two_ends, "[strainer]", "[strainer, {k 150: start}]");
  const FitAnswer answer = fit(farm_of(two_ends + measured_of(truth)), {});
  double sum = answer.result.chance_of_reading_errors + answer.result.chance_of_other;
  for (const FitEntry& entry : answer.result.entries) {
    sum += entry.chance;
  }
  CHECK(sum <= 1.0 + 1e-9);
  CHECK(sum > 0.95);  // what is left belongs to causes too unlikely to be listed
}

TEST_CASE("the cause is written into a copy that keeps remarks and gives the readings", "[fit]") {
  const std::string truth = with(two_ends, "[strainer]", "[strainer, {k 150: start}]");
  const model::LoadedFarm loaded = model::load_farm(two_ends + measured_of(truth), "test.yaml");
  REQUIRE(loaded.farm);
  const FitAnswer answer = fit(*loaded.farm, {});
  const CopyWithCause copy = farm_with_cause(loaded, answer);
  CAPTURE(copy.refusal.has_value(), copy.problem);
  REQUIRE_FALSE(copy.text.empty());
  CHECK(copy.text.find("# a remark that must stay") != std::string::npos);
  const FitAnswer again = fit(farm_of(copy.text), {});
  CHECK(again.result.verdict == FitVerdict::Agrees);
}

TEST_CASE("a spring that fails is written as a smaller yield in every month given", "[fit]") {
  const std::string text =
      "farm: Test\n"
      "springs: {box: {overflow: 60 m, yield: {May: 8 L/min, Aug: 4 L/min}}}\n"
      "outlets: {end: {level: 40 m}}\n"
      "pipes: {line: {from: box, to: end, size: {bore: 26.6 mm}, length: 200 m}}\n"
      "measured:\n"
      "  - {at: box, flow: 2 L/min, on: 2026-08-10, with: bucket}\n"
      "  - {at: end, flow: 2 L/min, on: 2026-08-10, with: bucket}\n";
  const model::LoadedFarm loaded = model::load_farm(text, "test.yaml");
  REQUIRE(loaded.farm);
  const FitAnswer answer = fit(*loaded.farm, {});
  REQUIRE(answer.result.verdict == FitVerdict::Explained);
  CHECK(answer.result.entries.front().causes.front().site.kind == CauseKind::SpringWeaker);
  const CopyWithCause copy = farm_with_cause(loaded, answer);
  CHECK(copy.text.find("May: 4.0") != std::string::npos);
  CHECK(copy.text.find("Aug: 2.0") != std::string::npos);
}

TEST_CASE("a leak is mended, not written into the farm file", "[fit]") {
  model::LoadedFarm loaded = model::load_farm(two_ends, "test.yaml");
  FitAnswer answer;
  answer.result.verdict = FitVerdict::Explained;
  FittedCause leak;
  leak.site.kind = CauseKind::LeakAtTee;
  leak.site.index = 1;
  FitEntry entry;
  entry.causes.push_back(leak);
  entry.chance = 0.9;
  answer.result.entries.push_back(entry);
  const CopyWithCause copy = farm_with_cause(loaded, answer);
  CHECK(copy.text.empty());
  CHECK(copy.refusal == CopyRefusal::CannotBeWritten);
}

TEST_CASE("kinds of one entry are told each once, with the other spots of their like", "[fit]") {
  FitEntry entry;
  const auto add = [&entry](CauseKind kind, bool at_pipe, std::size_t index) {
    FittedCause cause;
    cause.site.kind = kind;
    cause.site.at_pipe = at_pipe;
    cause.site.index = index;
    entry.causes.push_back(cause);
  };
  add(CauseKind::KinkedPipe, true, 3);
  add(CauseKind::SiltedPipe, true, 3);
  add(CauseKind::KinkedPipe, true, 4);
  add(CauseKind::LevelWrong, false, 3);
  add(CauseKind::KinkedPipe, true, 4);
  const std::vector<Alternative> alternatives = alternatives_of(entry);
  REQUIRE(alternatives.size() == 3);
  CHECK(alternatives[0].cause == 0);
  CHECK(alternatives[0].elsewhere == std::vector<std::size_t>{2});
  CHECK(alternatives[1].cause == 1);
  CHECK(alternatives[1].elsewhere.empty());
  CHECK(alternatives[2].cause == 3);
  CHECK(distinct_spots(entry) == std::vector<std::size_t>{0, 2, 3});
}

TEST_CASE("chi-square's points are those of the printed tables", "[fit][reference]") {
  // Abramowitz and Stegun, table 26.8 (from memory): 95 % point of 5 degrees 11.070, 99 % 15.086.
  CHECK(chi_square_point(5.0, 1.644854) == Approx(11.070).epsilon(0.005));
  CHECK(chi_square_point(5.0, 2.326348) == Approx(15.086).epsilon(0.005));
}

}  // namespace leat::solver
