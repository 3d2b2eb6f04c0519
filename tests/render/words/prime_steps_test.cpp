// The steps of a priming plan as a person reads them.
#include "render/words/prime_steps.h"

#include <catch2/catch.hpp>

#include "tests/render/words/primed_words.h"
#include "tests/support/random_farm.h"

namespace leat::tests {

TEST_CASE("each step of a demo farm's plan names the thing it stands at") {
  for (const char* const name : {"01-over-the-rise",
                                 "05-tangle",
                                 "08-foot-valve-on-a-short-siphon",
                                 "02-high-trough",
                                 "07-air-that-stays"}) {
    const Planned made = planned(demo_text(name));
    CAPTURE(name);
    REQUIRE_FALSE(made.plan.steps.empty());
    for (const solver::PrimeStep& step : made.plan.steps) {
      const std::string text = render::step_sentence(made.plan, step, made.farm.show);
      CAPTURE(text);
      CHECK(has_text(text, step.where));
    }
  }
}

TEST_CASE("each step of any farm's plan names the thing it stands at", "[law]") {
  for (std::uint64_t seed = 1; seed <= 600; ++seed) {
    const model::Farm farm =
        random_farm(seed, seed % 2 == 0 ? FarmKind::Everything : FarmKind::Prototype);
    solver::PrimeOptions options;
    if (seed % 3 == 0) {
      options.pipe = farm.pipes[seed % farm.pipes.size()].name;
    }
    const solver::PrimePlan plan = solver::priming_plan(farm, options);
    CAPTURE(seed);
    if (!plan.is_made()) {
      REQUIRE_FALSE(render::prime_problems(farm, plan).front().text.empty());
    }
    for (const solver::PrimeStep& step : plan.steps) {
      const std::string text = render::step_sentence(plan, step, farm.show);
      CAPTURE(text, step.where);
      REQUIRE(has_text(text, step.where));
    }
  }
}

TEST_CASE("water to carry is told in vessels, and with what the line holds") {
  const ToldPlan told = told_of(demo_text("01-over-the-rise"));
  CHECK(has_text(told.steps.at(told.step_with("Carry")), "39.3 gal"));
  CHECK(has_text(told.steps.at(told.step_with("Carry")), "40 jugs of 1 gal"));
}

TEST_CASE("one bucket is a bucket") {
  // pi/4 x 0.026^2 m2 x about 9 m is near 5 L: with a fifth more still one bucket.
  const ToldPlan tiny = told_of(
      low_siphon("outlets:\n  end: {level: 18 m}", "[[0 m, 19 m], [4 m, 21 m], [8 m, 18 m]]"));
  CAPTURE(tiny.all());
  CHECK(tiny.has_step(": 1 bucket of 10 L"));
}

TEST_CASE("the sheet tells when the water poured in has run out") {
  CHECK(told_of(high_siphon()).has_step("the water you poured in runs out"));
}

TEST_CASE("branches of a siphon are told to be shut, and to be let in when it runs") {
  const ToldPlan told = told_of(siphon_with_branches);
  CAPTURE(told.all());
  const std::size_t pour = told.step_with("Pour water in at the summit at 'crest'");
  CHECK(told.step_with("'side' has no valve at 'crest'") < pour);
  CHECK(told.step_with("Shut the valve of 'valved' at 'crest'") < pour);
  CHECK(told.step_with("let water into 'side' at 'crest'") > pour);
  CHECK(told.has_step("let water into 'side' at 'crest'"));
  // The flow with every branch open can be measured only after the last is.
  CHECK(told.step_with("let water into 'valved' at 'crest'") < told.step_with("At 'end' expect"));
  CHECK(told.has_step("At 'end' expect"));
  // Stopped at its lower end alone the water would run on to the branches.
  CHECK(
      has_text(told.steps.at(0), "Shut off 'side' at 'crest' and 'valved' at 'crest', then shut"));
}

TEST_CASE("the way to stop a siphon names every branch that takes its water") {
  const ToldPlan told = told_of(demo_text("05-tangle"));
  // 'cross valve' is shut in the file and stays so.
  for (const std::size_t step : {std::size_t{0}, told.step_with("Measure again")}) {
    const std::string& text = told.steps.at(step);
    CAPTURE(text);
    CHECK((has_text(text, "Shut off 'drowned end' at 'creek tee'") ||
           has_text(text, "shut off 'drowned end' at 'creek tee'")));
    CHECK_FALSE(has_text(text, "cross valve"));
  }
  CHECK(told.step_with("'drowned end' has no valve at 'creek tee': put one in") <
        told.step_with("Pour water in"));
}

TEST_CASE("a line whose ends cannot be shut while it runs is begun again, not topped up") {
  const ToldPlan low = told_of(low_siphon());
  const std::string& text = low.steps.at(low.step_with("Measure again"));
  CHECK_FALSE(has_text(text, "shut"));
  CHECK(has_text(text, "begin again at step " + std::to_string(low.step_with("Carry") + 1)));
}

TEST_CASE("an end under water is lifted over a bucket to be measured") {
  CHECK(told_of(low_siphon("  end: {surface: 18.5 m}"))
            .has_step("lift the end over the rim of the bucket"));
}

}  // namespace leat::tests
