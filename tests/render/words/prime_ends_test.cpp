// What is said of a siphon's two ends.
#include "render/words/prime_ends.h"

#include <catch2/catch.hpp>

#include "tests/render/words/primed_words.h"

namespace leat::tests {

TEST_CASE("both ends are told to be shut before water is poured, by what the file has there") {
  for (const std::string& more :
       {std::string(),
        std::string("    valve: {type: gate, open: 1/2, at: end}\n"),
        std::string("    fittings: [{hinged foot valve: start}]\n"),
        std::string("    valve: {type: ball, open: 100 %, at: start}\n")}) {
    const ToldPlan told = told_of(high_siphon(more));
    CAPTURE(told.all());
    const bool has_foot_valve = has_text(more, "foot valve");
    const bool has_end_valve = has_text(more, "at: end");
    const bool has_start_valve = has_text(more, "at: start");
    const std::size_t stop = told.step_with("Know how to stop it");
    const std::size_t inlet = told.step_with(has_foot_valve    ? "foot valve is clean and shuts"
                                             : has_start_valve ? "shut the ball valve at the start"
                                                               : "Put a plug on a cord");
    const std::size_t outlet =
        told.step_with(has_end_valve ? "Go to 'end' and shut the gate valve at the end"
                                     : "fit a valve at the end of 'siphon' at 'end', to be turned "
                                       "from dry ground, and shut it");
    const std::size_t open_top = told.step_with("Open the line at the summit");
    const std::size_t pour = told.step_with("Pour water in");
    const std::size_t cap = told.step_with("Cap the summit");
    const std::size_t let_in =
        told.step_with(has_start_valve ? "open the ball valve at the start" : "pull the plug");
    const std::size_t let_out =
        told.step_with(has_end_valve ? "open the gate valve at the end" : "open the valve fitted");
    CHECK(stop == 0);
    CHECK(inlet < pour);
    CHECK(outlet < pour);
    CHECK(open_top < pour);
    CHECK(pour < cap);
    // The inlet is never opened before the top is capped, the end never before the inlet.
    if (has_foot_valve) {
      CHECK(let_in == told.steps.size());
    } else {
      CHECK(cap < let_in);
      CHECK(let_in < let_out);
    }
    CHECK(cap < let_out);
    CHECK(let_out < told.steps.size());
  }
}

TEST_CASE("the opening of the last valve is told as it is turned") {
  CHECK(told_of(high_siphon("    valve: {type: gate, open: 1/2, at: end}\n"))
            .has_step("to 1/2 open"));
  CHECK(told_of(high_siphon("    valve: {type: gate, open: 100 %, at: end}\n"))
            .has_step("until it is wide open"));
}

TEST_CASE("a float that does not close against the full line is told to get a valve before it") {
  const ToldPlan told = told_of(siphon_to_weak_float);
  CHECK(told.has_step("more than the 50 kPa it closes against"));
  CHECK(told.has_step("fit a valve at the end of 'siphon'"));
  CHECK(told.has_step("open the valve fitted"));
  CHECK(has_text(told.steps.at(0), "Shut the valve fitted"));
}

TEST_CASE("a cap is told of only where a hand can take it off") {
  const ToldPlan low = told_of(low_siphon());
  CAPTURE(low.all());
  CHECK(low.step_with("put a cap on the end") < low.step_with("Pour water in"));
  CHECK(low.has_step("work the cap off"));
  const ToldPlan high = told_of(high_siphon());
  CHECK_FALSE(high.has_step("put a cap on the end"));
  CHECK(high.step_with("a cap should not be worked off against more than 50 kPa") <
        high.step_with("Pour water in"));
  // The same low line with its end under a pond's water.
  const ToldPlan drowned = told_of(low_siphon("  end: {surface: 18.5 m}"));
  CAPTURE(drowned.all());
  CHECK_FALSE(drowned.has_step("cap on the end"));
  CHECK(drowned.step_with("nobody should work a cap off under water") <
        drowned.step_with("Pour water in"));
}

TEST_CASE("a plug has a way out of its own screen, and where it must not be pulled there is none") {
  CHECK(told_of(low_siphon()).has_step("basket large enough for the plug to drop out inside it"));
  const ToldPlan deep = told_of(
      low_siphon("outlets:\n  end: {level: 18 m}", "[[0 m, 15 m], [20 m, 20.9 m], [60 m, 18 m]]"));
  CAPTURE(deep.all());
  CHECK(deep.step_with("Fit a foot valve into the inlet") < deep.step_with("Pour water in"));
  CHECK_FALSE(deep.has_step("pull the plug"));
}

TEST_CASE("an end that the line rises to is told to stay open until its air is out") {
  const ToldPlan told = told_of(low_siphon(
      "outlets:\n  end: {level: 18 m}", "[[0 m, 19 m], [20 m, 21 m], [50 m, 16 m], [70 m, 18 m]]"));
  CAPTURE(told.all());
  const std::size_t pour = told.step_with("Pour water in");
  const std::size_t shut = told.step_with("comes out at the end of 'siphon', put its cap on");
  CHECK(told.step_with("Leave it open as yet: the line rises to it") < pour);
  CHECK(pour < shut);
  CHECK(shut < told.step_with("Go on pouring"));
}

}  // namespace leat::tests
