#include "render/commands/solve/table_report.h"

#include <algorithm>
#include <cmath>
#include <locale>
#include <sstream>

#include <catch2/catch.hpp>

#include "render/commands/solve/csv_report.h"
#include "render/commands/solve/json_report.h"
#include "render/document/text_table.h"
#include "tests/render/sample_farm.h"

namespace leat::render {

namespace {

const TableOptions us_units = {model::UnitSystem::Us, Detail::Short};

int widest_line(const std::string& text) {
  std::istringstream lines(text);
  int widest = 0;
  for (std::string line; std::getline(lines, line);) {
    widest = std::max(widest, display_width(line));
  }
  return widest;
}

/// A locale that writes 1.234,5: what some people's machines are set to.
struct DecimalComma : std::numpunct<char> {
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};

}  // namespace

TEST_CASE("the screen tells what each gets, where it comes from, what is wrong, what to mind") {
  const std::string text = solve_table(sample_farm(), sample_answer(), us_units, Terminal{});
  CHECK(
      text ==
      "Alder Hollow\n"
      "Aug, chosen as the driest month; case needs: each trough takes at most its need, a day's "
      "average\n"
      "levels in ft above the datum (barn slab corner = 100 ft), flows in gal/min, pressures in "
      "psi\n"
      "\n"
      "who gets what          level  gets  needs   met  pressure  state\n"
      "north          trough  107.9  0.79   2.38  33 %       0.7  starved\n"
      "house pond     pond     98.4  2.54      -     -         -  ok\n"
      "\n"
      "where it comes from          level  gives  has to give  spills  state\n"
      "upper                spring  131.2   3.33         7.93    4.60  ok\n"
      "\n"
      "caution  north trough gets 0.8 of the 2.4 gal/min it needs: its float stands 6 ft above the "
      "running\n"
      "         grade line at gate tee\n"
      "\n"
      "Mind: Never start a siphon by mouth, and know how to stop it before you start it; open "
      "every high\n"
      "point, fill slowly (0.3 m/s, 1 ft/s) and stand clear of the ends. Suction holds hands and "
      "children:\n"
      "screen every intake. Never enter a spring box or a cistern (gas, drowning): fence it and "
      "lid it. Ask\n"
      "the dam-safety office before you touch a bank or spillway or draw a pond down. Drain and "
      "vent a line\n"
      "before cutting it. Leave stock another supply while a line is on trial. Water rights come "
      "first.\n"
      "Local codes and licensed people decide.\n");
}

TEST_CASE("no line of the screen is wider than the terminal or a hundred columns") {
  model::Farm farm = sample_farm();
  for (model::Place& place : farm.places) {
    place.name = std::string(80, 'w');
  }
  farm.datum = std::string(70, 'd') + " corner of the barn " + std::string(20, 'e');
  const TableOptions verbose = {model::UnitSystem::Us, Detail::Verbose};
  CHECK(widest_line(solve_table(farm, sample_answer(), verbose, Terminal{Colour::Off, 300})) <=
        100);
  const std::string narrow =
      solve_table(sample_farm(), sample_answer(), us_units, Terminal{Colour::Off, 64});
  const std::string sentences = narrow.substr(narrow.find("caution"));
  CHECK(widest_line(sentences) <= 64);
}

TEST_CASE("a farm with nothing flagged is told that nothing is amiss that leat checks") {
  solver::SteadyAnswer answer = sample_answer();
  answer.flags[0].severity = solver::Severity::Note;
  const std::string text = solve_table(sample_farm(), answer, us_units, Terminal{});
  CHECK(text.find("Nothing amiss that leat checks.\nnote     north trough gets") !=
        std::string::npos);
}

TEST_CASE("a need not quite met never reads as met in full") {
  solver::SteadyAnswer answer = sample_answer();
  answer.places[2].met = 0.9949;
  CHECK(solve_table(sample_farm(), answer, us_units, Terminal{}).find(" 99 %") !=
        std::string::npos);
  answer.places[2].met = 1.0;
  CHECK(solve_table(sample_farm(), answer, us_units, Terminal{}).find(" 100 %") !=
        std::string::npos);
}

TEST_CASE("a pond that feeds the line stands with the sources, and one that fills with the users") {
  solver::SteadyAnswer answer = sample_answer();
  answer.places[3].delivered_m3_s = -0.0001;
  const std::string text = solve_table(sample_farm(), answer, us_units, Terminal{});
  CHECK(text.find("house pond") > text.find("where it comes from"));
}

TEST_CASE("a creek that water runs into gets it, and no column has it give what it takes") {
  model::Farm farm = sample_farm();
  farm.places[3].data = model::Creek{};
  const std::string text = solve_table(farm, sample_answer(), us_units, Terminal{});
  CHECK(text.find("house pond") < text.find("where it comes from"));
  // 1.6e-4 m3/s are 0.16 L/s x 60 / 3.785 L = 2.54 gal/min.
  CHECK(text.find("house pond     creek    98.4  2.54 ") != std::string::npos);
  CHECK(text.find("takes 2.54") == std::string::npos);
}

TEST_CASE("a tank that no water leaves stands with the users, and with the sources once it feeds") {
  model::Farm farm = sample_farm();
  farm.places[3].data = model::Tank{};
  solver::SteadyAnswer answer = sample_answer();
  answer.places[3].delivered_m3_s = 0.0;
  const std::string idle = solve_table(farm, answer, us_units, Terminal{});
  CHECK(idle.find("house pond") < idle.find("where it comes from"));
  answer.places[3].delivered_m3_s = -0.0001;
  answer.pipes[2].flow_m3_s = -0.0001;
  const std::string feeding = solve_table(farm, answer, us_units, Terminal{});
  CHECK(feeding.find("house pond") > feeding.find("where it comes from"));
  // As much comes in as goes out: it feeds the line all the same.
  answer.places[3].delivered_m3_s = 0.0;
  const std::string passing = solve_table(farm, answer, us_units, Terminal{});
  CHECK(passing.find("house pond") > passing.find("where it comes from"));
}

TEST_CASE("standing water is shown with each pipe's highest pressure beside its rating") {
  solver::SteadyAnswer answer = sample_answer();
  answer.load_case = solver::LoadCase::Static;
  const std::string text = solve_table(sample_farm(), answer, us_units, Terminal{});
  CHECK(text.find("case static: every end shut") != std::string::npos);
  CHECK(text.find("highest  rating") != std::string::npos);
  CHECK(text.find("who gets what") == std::string::npos);
  CHECK(text.find("(case needs: ") != std::string::npos);  // the flag comes from another load case
}

TEST_CASE("colour comes with the words, never instead of them") {
  const std::string plain = solve_table(sample_farm(), sample_answer(), us_units, Terminal{});
  std::string coloured =
      solve_table(sample_farm(), sample_answer(), us_units, Terminal{Colour::On, 100});
  CHECK(plain.find('\x1b') == std::string::npos);
  CHECK(coloured.find("\x1b[33mcaution\x1b[0m") != std::string::npos);
  for (std::size_t at = coloured.find('\x1b'); at != std::string::npos;
       at = coloured.find('\x1b')) {
    coloured.erase(at, coloured.find('m', at) - at + 1);
  }
  CHECK(coloured == plain);
}

TEST_CASE("a machine set to decimal commas prints the same text, JSON and CSV") {
  const std::string table = solve_table(sample_farm(), sample_answer(), us_units, Terminal{});
  const std::string json = solve_json(sample_farm(), sample_answer(), model::UnitSystem::Us);
  const std::string csv = places_csv(sample_farm(), sample_answer());
  const std::locale before = std::locale::global(std::locale(std::locale(), new DecimalComma));
  const std::string other_table = solve_table(sample_farm(), sample_answer(), us_units, Terminal{});
  const std::string other_json = solve_json(sample_farm(), sample_answer(), model::UnitSystem::Us);
  const std::string other_csv = places_csv(sample_farm(), sample_answer());
  std::locale::global(before);
  CHECK(other_table == table);
  CHECK(other_json == json);
  CHECK(other_csv == csv);
}

TEST_CASE("a figure that is no number never reaches the screen as nan") {
  solver::SteadyAnswer answer = sample_answer();
  answer.places[2].delivered_m3_s = std::nan("");
  answer.places[2].met = std::nan("");
  answer.pipes[0].velocity_m_s = std::nan("");
  const TableOptions verbose = {model::UnitSystem::Us, Detail::Verbose};
  CHECK(solve_table(sample_farm(), answer, verbose, Terminal{}).find("nan") == std::string::npos);
}

TEST_CASE("the iteration table ends with the sentence that says why it stopped") {
  nodal::SolveReport report;
  report.sentence = "largest imbalance 1e-12 m3/s is within 1e-9";
  report.table = {{1, 2.5, 1e-4, 0.1, 1.0}, {2, 1e-9, 1e-13, 0.0, 0.5}};
  CHECK(iteration_table(report) ==
        "iteration  residual m  imbalance m3/s  smoothing m   step\n"
        "        1    2.50e+00        1.00e-04     1.00e-01  1.000\n"
        "        2    1.00e-09        1.00e-13     0.00e+00  0.500\n"
        "largest imbalance 1e-12 m3/s is within 1e-9\n");
}

}  // namespace leat::render
