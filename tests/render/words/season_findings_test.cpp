// What is found wrong over a season, in words.
#include <catch2/catch.hpp>

#include "render/words/finding_sentence.h"
#include "render/words/frost.h"

namespace leat::render {

namespace {

std::string text(const std::string& where, std::optional<double> value, solver::Detail detail) {
  solver::Finding flag;
  flag.where = where;
  flag.value = value;
  flag.limit = 0.5e-3;
  flag.detail = std::move(detail);
  return sentence_of(flag, model::UnitSystem::Metric);
}

solver::FrostPipe frosty_pipe() {
  solver::FrostPipe pipe;
  pipe.water_C = 8.0;
  pipe.first_ice_h = 0.32;
  pipe.solid_h = 4.43;
  pipe.least_flow_m3_s = 1.5843e-5;
  return pipe;
}

}  // namespace

TEST_CASE("a trough that goes short is told by its worst month") {
  solver::ShortInMonth found{.year = 2026,
                             .month = model::Month::Jan,
                             .short_from = model::Date{2026, 1, 1},
                             .dry_h = 120.4,
                             .reason = {}};
  found.reason.supply = solver::SupplyShort{{"box"}, 0.0, 1.44};
  CHECK(text("yard", 0.0, found) ==
        "yard gets nothing in Jan 2026, short from 2026-01-01, short for 120 h in all: box gives "
        "nothing, 1.44 m3 a day are wanted");
  CHECK(text("yard", 0.617, found).find("yard gets 61 % of its need in Jan 2026") == 0);
}

TEST_CASE("what stops a line is told with its day") {
  CHECK(text("over", std::nullopt, solver::LineParts{{2026, 7, 3}, 101.0}) ==
        "on 2026-07-03 the water in over parts at its summit (101.00 m) and the line stops; it "
        "stays stopped until primed again");
  CHECK(text("spring", 1.3, solver::LineBreaks{{2026, 7, 3}, "over", "hill"}) ==
        "on 2026-07-03 spring draws down to its intake, 1.3 m below the high point of hill: over "
        "draws air and breaks; it stays broken until primed again");
  CHECK(text("t", std::nullopt, solver::LineDrawsAir{"end", {2026, 7, 3}}) ==
        "t draws air in through end, which stands open, first on 2026-07-03");
}

TEST_CASE("what runs over, runs empty or takes too much is told with its figure") {
  CHECK(text("north", 308.0, solver::RunsOver{model::Date{2026, 8, 10}}) ==
        "the float of north hangs open from 2026-08-10: 308 m3 run over there");
  CHECK(text("tank", 308.0, solver::RunsOver{}) == "tank runs over: 308 m3 in all");
  CHECK(text("tank", 36.1, solver::RunsEmpty{{2026, 8, 10}, true}) ==
        "tank falls to 36.10 m on 2026-08-10, down at the mouth of its lowest pipe");
  CHECK(text("pond", 36.1, solver::RunsEmpty{{2026, 8, 10}, false}) ==
        "pond falls to 36.10 m on 2026-08-10, down at its bottom");
  CHECK(text("brook", 1e-3, solver::TakesMoreThanSpare{{2026, 8, 10}}) ==
        "on 2026-08-10 60 L/min is taken from brook, more than the 30 L/min that may be taken");
  CHECK(text("low", std::nullopt, solver::NoNeedGiven{}) ==
        "no need given for low: its float is taken as never satisfied");
}

TEST_CASE("a pipe that may freeze tells what keeps it open, in the units asked for") {
  const solver::FrostPipe pipe = frosty_pipe();
  CHECK(text("main", std::nullopt, solver::PipeFreezes{pipe})
            .find("about 0.95 L/min (0.48 to 1.9)") != std::string::npos);
  CHECK(frost_pipe_text("main", pipe, model::UnitSystem::Us).find("gal/min") != std::string::npos);
  solver::FrostPipe untold = pipe;
  untold.lies_untold = true;
  CHECK(text("main", std::nullopt, solver::PipeFreezes{untold}).find("the file does not say") !=
        std::string::npos);
  solver::FrostPipe floats = pipe;
  floats.feeds_floats_only = true;
  floats.verdict = solver::FrostVerdict::Still;
  CHECK(text("main", std::nullopt, solver::PipeFreezes{floats}).find("once they shut at night") !=
        std::string::npos);
  solver::FrostPipe cold = pipe;
  cold.least_flow_m3_s.reset();
  CHECK(text("main", std::nullopt, solver::PipeFreezes{cold}).find("No flow keeps it open") !=
        std::string::npos);
}

}  // namespace leat::render
