// What is said of a line that fills by itself.
#include "render/words/prime_filling.h"

#include <catch2/catch.hpp>

#include "tests/render/words/primed_words.h"

namespace leat::tests {

TEST_CASE("a line that stays below its water is told how it fills") {
  const ToldPlan told = told_of(demo_text("07-air-that-stays"));
  // Both rises stand open before any water comes, and are closed in the order it comes to them.
  const std::size_t let_in = told.step_with("Let 'alder pool' run into 'meadow line'");
  const std::string rise = "the high point of 'meadow line' at ";
  const std::size_t near_closed = told.step_with("runs out at " + rise + "110 m");
  const std::size_t far_closed = told.step_with("runs out at " + rise + "230 m");
  CHECK(told.step_with("let in, open " + rise + "110 m") < let_in);
  CHECK(told.step_with("let in, open " + rise + "230 m") < let_in);
  CHECK(told.step_with("If there is no opening there, fit a tee") < let_in);
  CHECK(let_in < near_closed);
  CHECK(near_closed < far_closed);
  CHECK(far_closed < told.step_with("it is full after"));
  // Vents let the air out by themselves.
  const ToldPlan vented =
      told_of(demo_text("07-air-that-stays") +
              "    vents: [{at: 110 m, top: 40.3 m}, {at: 230 m, top: 40.3 m}]\n");
  CHECK_FALSE(vented.has_step("let in, open the high point"));
}

TEST_CASE("0.3 m/s is a foot a second") {
  CHECK(told_of(demo_text("12-slammed-valve"), {}, model::UnitSystem::Us)
            .has_step("(1 ft/s in the pipe)"));
}

}  // namespace leat::tests
