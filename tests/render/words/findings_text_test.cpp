#include "render/words/findings_text.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "tests/render/sample_farm.h"

namespace leat::render {

TEST_CASE("pipes whose rating was assumed share one line unless all is asked for") {
  solver::SteadyAnswer answer = sample_answer();
  solver::Finding note;
  note.code = solver::Code::RatingAssumed;
  note.load_case = solver::LoadCase::Static;
  note.where = "main";
  note.value = 689e3;
  note.detail = solver::RatingAssumed{"1 in SIDR 15"};
  solver::Finding other = note;
  other.where = "to pond";
  answer.flags = {note, other};
  CHECK(findings_text(answer.flags, {model::UnitSystem::Us, Detail::Short}, Terminal{}) ==
        "\nNothing amiss that leat checks.\n"
        "note     2 pipes are sold in several ratings and the lowest is taken for each: main, to "
        "pond\n");
  const std::string all =
      findings_text(answer.flags, {model::UnitSystem::Us, Detail::Verbose}, Terminal{});
  CHECK(std::count(all.begin(), all.end(), '\n') == 6);  // two lines a pipe
  CHECK(all.find("case") == std::string::npos);  // the print on a pipe is no matter of a case
  answer.flags = {note};
  CHECK(findings_text(answer.flags, {model::UnitSystem::Us, Detail::Short}, Terminal{})
            .find("1 in SIDR 15 is sold") != std::string::npos);
}

TEST_CASE("a finding of another load case names that case, and the first time what it means") {
  solver::SteadyAnswer answer = sample_answer();
  const auto no_way_to = [](const char* where, solver::LoadCase load_case) {
    solver::Finding finding;
    finding.code = solver::Code::CutOff;
    finding.severity = solver::Severity::Caution;
    finding.where = where;
    finding.load_case = load_case;
    return finding;
  };
  answer.flags = {no_way_to("main", solver::LoadCase::Static)};
  CHECK(findings_text(answer.flags, {}, Terminal{}) ==
        "\ncaution  main is cut off: no open way joins it to water (case static: with every end "
        "shut)\n");
  answer.flags.push_back(no_way_to("north", solver::LoadCase::Static));
  answer.flags.push_back(no_way_to("pond", solver::LoadCase::Wide));
  CHECK(findings_text(answer.flags, {}, Terminal{}) ==
        "\ncaution  main is cut off: no open way joins it to water (case static: with every end "
        "shut)\n"
        "caution  north is cut off: no open way joins it to water (case static)\n"
        "caution  pond is cut off: no open way joins it to water (case wide: with every float wide "
        "open)\n");
}

}  // namespace leat::render
