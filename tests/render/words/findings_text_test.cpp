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
  note.text = "1 in SIDR 15 is sold in several ratings, main gets the lowest";
  solver::Finding other = note;
  other.where = "to pond";
  answer.flags = {note, other};
  CHECK(findings_text(answer, Detail::Short, Terminal{}) ==
        "\nNothing amiss that leat checks.\n"
        "note     2 pipes are sold in several ratings and the lowest is taken for each: main, to "
        "pond\n");
  const std::string all = findings_text(answer, Detail::Verbose, Terminal{});
  CHECK(std::count(all.begin(), all.end(), '\n') == 4);
  CHECK(all.find("case") == std::string::npos);  // the print on a pipe is no matter of a case
  answer.flags = {note};
  CHECK(findings_text(answer, Detail::Short, Terminal{}).find(note.text) != std::string::npos);
}

TEST_CASE("a finding of another load case names that case, and the first time what it means") {
  solver::SteadyAnswer answer = sample_answer();
  answer.flags[0].load_case = solver::LoadCase::Static;
  answer.flags[0].text = "main sees 120 psi";
  CHECK(findings_text(answer, Detail::Short, Terminal{}) ==
        "\ncaution  main sees 120 psi (case static: with every end shut)\n");
  answer.flags.push_back(answer.flags[0]);
  answer.flags.push_back(answer.flags[0]);
  answer.flags[1].text = "main knocks";
  answer.flags[2].text = "silt settles in main";
  answer.flags[2].load_case = solver::LoadCase::Wide;
  CHECK(findings_text(answer, Detail::Short, Terminal{}) ==
        "\ncaution  main sees 120 psi (case static: with every end shut)\n"
        "caution  main knocks (case static)\n"
        "caution  silt settles in main (case wide: with every float wide open)\n");
}

}  // namespace leat::render
