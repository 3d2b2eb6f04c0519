// What is said beside the steps of a priming plan.
#include "render/words/prime_remarks.h"

#include <catch2/catch.hpp>

#include "tests/render/words/primed_words.h"

namespace leat::tests {

TEST_CASE("who pours too fast is told what to hold to") {
  solver::PrimeOptions fast;
  fast.fill_m3_s = 100.0 / 60000.0;
  CHECK(has_text(told_of(high_siphon(), fast).all(), "hold it to"));
}

TEST_CASE("a weak pump is told to stop below the summit, a strong one not to be used") {
  solver::PrimeOptions weak;
  weak.shut_off_Pa = 9806.65 * 6.0;
  CHECK(has_text(told_of(high_siphon(), weak).all(), "below the summit: fill the rest by hand"));
  solver::PrimeOptions strong;
  strong.shut_off_Pa = 3000e3;
  CHECK(has_text(told_of(high_siphon(), strong).all(),
                 "Yours of 3000 kPa would reach the summit, but it is too strong: do not use it."));
  // Where nothing is to be pumped it is not passed over.
  CHECK(
      has_text(told_of(demo_text("11-sucked-flat"), strong).all(), "do not fill the line with it"));
  CHECK(has_text(told_of(demo_text("07-air-that-stays"), strong).all(),
                 "is not needed: the line fills by itself"));
}

TEST_CASE("a fill pump is told to be joined to a valve, and which steps it replaces") {
  CHECK(has_text(told_of(low_siphon()).all(),
                 "put a valve on the lower end first, else this cannot be done"));
  const ToldPlan valved = told_of(demo_text("01-over-the-rise"));
  const std::string replaced =
      "In place of steps " + std::to_string(valved.step_with("Go to 'willow pond' and shut") + 1) +
      " and " + std::to_string(valved.step_with("Pour water in") + 1) +
      " open the gate valve there";
  CHECK(has_text(valved.all(), replaced));
  CHECK(has_text(valved.all(), "it draws from 'willow pond'"));
  // Where the plan itself has a valve fitted, only the pouring is replaced.
  const ToldPlan fitted = told_of(high_siphon());
  CHECK(has_text(fitted.all(),
                 "Leave the valve that is fitted there open, with the summit open, and pump in "
                 "place of step " +
                     std::to_string(fitted.step_with("Pour water in") + 1)));
}

TEST_CASE("the foot valve's price is told, and what to do about one that is to be fitted") {
  solver::PrimeOptions options;
  options.pipe = "short siphon";
  CHECK(has_text(told_of(demo_text("08-foot-valve-on-a-short-siphon"), options).all(),
                 "Never unscrew it on a running line"));
  const std::string deep = told_of(low_siphon("outlets:\n  end: {level: 18 m}",
                                              "[[0 m, 15 m], [20 m, 20.9 m], [60 m, 18 m]]"))
                               .all();
  // The flow was reckoned with the file as it is, and the sheet says so.
  CHECK(has_text(deep, "Put the foot valve that is to be fitted into the file"));
  CHECK_FALSE(has_text(deep, "This line has no foot valve"));
}

TEST_CASE("of parted water and of trapped air it is told what they hold back") {
  // Where the water parts, the leg up to the summit alone decides: a lower end adds nothing.
  CHECK(has_text(told_of(siphon_too_high).all(), "the leg up to the summit alone decides"));
  CHECK(has_text(told_of(demo_text("07-air-that-stays")).all(),
                 "it does not start until they are bled"));
}

}  // namespace leat::tests
