#include "model/catalogue/fitting_catalogue.h"

#include <cmath>
#include <set>
#include <string>

#include <catch2/catch.hpp>

using namespace leat;         // NOLINT(google-build-using-namespace)
using namespace leat::model;  // NOLINT(google-build-using-namespace)

namespace {

const CatalogueFitting& fitting_named(const std::string& name) {
  const CatalogueFitting* fitting = find_fitting(name);
  if (fitting == nullptr) {
    FAIL("no fitting '" << name << "'");
  }
  return *fitting;
}

double k_of(const std::string& name, double bore_mm) {
  return loss_coefficient(fitting_named(name), millimetres(bore_mm));
}

}  // namespace

TEST_CASE("rough-flow friction by bore is that of the published sheet", "[reference]") {
  struct Row {
    std::string source;
    double bore_mm;
    double expected;
  };
  const std::string c1 = "reference-values C1: Crane TP-410, sheet A-26";
  const Row row = GENERATE_COPY(values<Row>({{c1, 15.8, 0.027},
                                             {c1, 20.9, 0.025},
                                             {c1, 26.6, 0.023},
                                             {c1, 35.1, 0.022},
                                             {c1, 40.9, 0.021},
                                             {c1, 52.5, 0.019},
                                             {c1, 77.9, 0.018},
                                             {"FORMAT.md: constant outside", 5.0, 0.027},
                                             {"FORMAT.md: constant outside", 300.0, 0.018},
                                             {"FORMAT.md: straight between", 18.35, 0.026}}));
  CAPTURE(row.source, row.bore_mm);
  CHECK(ft_of_bore(millimetres(row.bore_mm)) == Approx(row.expected).epsilon(1e-12));
}

TEST_CASE("fittings cost what the published list says", "[reference]") {
  struct Row {
    std::string source;
    std::string name;
    double k_1_in;  // bore 26.6 mm
    double k_2_in;  // bore 52.5 mm
    double tolerance;
  };
  // Tolerance: half a unit of the printed digits.
  const Row row = GENERATE(values<Row>({
      {"C1.1 (python3-fluids, strainer included)", "poppet foot valve", 9.66, 7.98, 0.005},
      {"C1.2 (python3-fluids, strainer included)", "hinged foot valve", 1.73, 1.43, 0.006},
      {"C1.3 (scanned sheet)", "swing check", 2.30, 1.90, 0.005},
      {"C1.4 (python3-fluids)", "straight swing check", 1.15, 0.95, 0.005},
      {"C1.5 (python3-fluids)", "lift check", 13.8, 11.4, 0.05},
      {"C1.5 (python3-fluids)", "angle lift check", 1.27, 1.05, 0.006},
      {"C1.6 (python3-fluids)", "globe valve", 7.8, 6.5, 0.05},
      {"C1.6 (python3-fluids), n 150", "angle valve", 3.45, 2.85, 0.005},
      {"C1.7 (scanned sheet)", "gate valve", 0.18, 0.15, 0.005},
      {"C1.8 (python3-fluids)", "ball valve", 0.07, 0.06, 0.005},
      {"C1.9 (from memory)", "elbow", 0.69, 0.57, 0.005},
      {"C1.10 (from memory)", "tee run", 0.46, 0.38, 0.005},
      {"C1.11 (from memory)", "tee branch", 1.38, 1.14, 0.005},
  }));
  CAPTURE(row.source, row.name);
  CHECK(k_of(row.name, 26.6) == Approx(row.k_1_in).margin(row.tolerance));
  CHECK(k_of(row.name, 52.5) == Approx(row.k_2_in).margin(row.tolerance));
}

TEST_CASE("a poppet foot valve in a 26.6 mm bore has K 9.66", "[reference]") {
  // FORMAT.md, fT.
  CHECK(k_of("poppet foot valve", 26.6) == Approx(9.66).epsilon(1e-12));
}

TEST_CASE("an insert coupler costs its barb's contraction and expansion", "[reference]") {
  struct Row {
    double bore_in;
    double expected;
  };
  // reference-values C3: constructed, barb bores assumed.
  const Row row = GENERATE(
      values<Row>({{0.824, 1.11}, {1.049, 0.67}, {1.380, 0.43}, {1.610, 0.41}, {2.067, 0.31}}));
  CAPTURE(row.bore_in);
  CHECK(k_of("coupler", row.bore_in * 25.4) == Approx(row.expected).margin(0.006));
  CHECK(k_of("coupler", 10.0) == Approx(1.11).margin(0.006));
  CHECK(k_of("coupler", 80.0) == Approx(0.31).margin(0.006));
}

TEST_CASE("a sudden change of bore costs what the closed forms say", "[reference]") {
  struct Row {
    std::string source;
    double beta;
    double expansion;
    double contraction;
  };
  const std::string c2 = "reference-values C2: Borda-Carnot and 0.5 (1 - b2)";
  const Row row = GENERATE_COPY(values<Row>({{c2, 0.5, 0.5625, 0.3750},
                                             {c2, 0.6, 0.4096, 0.3200},
                                             {c2, 0.7071, 0.2500, 0.2500},
                                             {c2, 0.8, 0.1296, 0.1800}}));
  CAPTURE(row.source, row.beta);
  const Length wide = millimetres(50.0);
  const Length narrow = row.beta * wide;
  CHECK(expansion_k(narrow, wide) == Approx(row.expansion).margin(1e-4));
  CHECK(contraction_k(narrow, wide) == Approx(row.contraction).margin(1e-4));
}

TEST_CASE("a change of bore loses the same head in whichever pipe it is written", "[law]") {
  const double beta = GENERATE(0.3, 0.6, 0.95, 1.0);
  CAPTURE(beta);
  const Length wide = millimetres(60.0);
  const Length narrow = beta * wide;
  // K on a pipe's own velocity head: heads go with 1 / area squared.
  const double squared_areas = std::pow(beta, 4.0);
  CHECK(expansion_k(wide, narrow) * squared_areas == Approx(expansion_k(narrow, wide)));
  CHECK(contraction_k(wide, narrow) * squared_areas == Approx(contraction_k(narrow, wide)));
  CHECK(expansion_k(wide, wide) == 0.0);
  CHECK(contraction_k(wide, wide) == 0.0);
}

TEST_CASE("a foot valve lifts fully at the published speed in every bore", "[reference]") {
  struct Row {
    std::string source;
    std::string name;
    double metres_per_second;
  };
  // Half a unit of the printed digits.
  const std::string source = "design section 4: n sqrt(v), n 15 and 35, from memory";
  const Row row = GENERATE_COPY(
      values<Row>({{source, "poppet foot valve", 0.58}, {source, "hinged foot valve", 1.35}}));
  CAPTURE(row.source, row.name);
  const CatalogueFitting& valve = fitting_named(row.name);
  const std::optional<Velocity> small = lifting_velocity(valve, millimetres(26.6));
  const std::optional<Velocity> large = lifting_velocity(valve, millimetres(77.9));
  REQUIRE(small.has_value());
  REQUIRE(large.has_value());
  CHECK(in_metres_per_second(*small) == Approx(row.metres_per_second).margin(0.005));
  CHECK(*small == *large);
  CHECK_FALSE(lifting_velocity(fitting_named("swing check"), millimetres(26.6)).has_value());
}

TEST_CASE("only checks and foot valves are one-way, and what has an end of its own sits there") {
  const std::set<std::string> one_way = {"swing check",
                                         "straight swing check",
                                         "lift check",
                                         "angle lift check",
                                         "spring check",
                                         "poppet foot valve",
                                         "hinged foot valve"};
  const std::set<std::string> at_start = {
      "poppet foot valve", "hinged foot valve", "strainer", "contraction from BORE"};
  for (const CatalogueFitting& fitting : fitting_catalogue()) {
    CAPTURE(fitting.name);
    CHECK(fitting.one_way == (one_way.count(fitting.name) == 1));
    CHECK((fitting.default_place == Placement::Where::Start) ==
          (at_start.count(fitting.name) == 1));
    CHECK((fitting.default_place == Placement::Where::End) ==
          (fitting.name == "expansion to BORE"));
    CHECK((fitting.opening_head > Length()) == (fitting.name == "spring check"));
    CHECK_FALSE(fitting.source.empty());
  }
}

TEST_CASE("a foot valve is one by its row in the catalogue, whatever else a name holds") {
  Fitting fitting;
  for (const CatalogueFitting& row : fitting_catalogue()) {
    CAPTURE(row.name);
    fitting.name = row.name;
    CHECK(is_foot_valve(fitting) == row.lifting_n.has_value());
  }
  fitting.name = "k";
  CHECK_FALSE(is_foot_valve(fitting));
}

TEST_CASE("a spring check opens at a third of a psi and a strainer costs one head") {
  // reference-values C1.5, C1.14: both from memory.
  const CatalogueFitting& check = fitting_named("spring check");
  CHECK(in_metres(check.opening_head) == Approx(0.35 * 0.703070).epsilon(1e-4));
  CHECK(loss_coefficient(check, millimetres(26.6)) == 5.0);
  CHECK(k_of("strainer", 26.6) == 1.0);
}

TEST_CASE("every fitting the format names is there, read without case or extra blanks") {
  for (const char* name : {"elbow",
                           "45 elbow",
                           "tee run",
                           "tee branch",
                           "coupler",
                           "gate valve",
                           "ball valve",
                           "globe valve",
                           "angle valve",
                           "swing check",
                           "lift check",
                           "spring check",
                           "poppet foot valve",
                           "hinged foot valve",
                           "strainer",
                           " Tee  Run ",
                           "GATE VALVE"}) {
    CAPTURE(name);
    CHECK(find_fitting(name) != nullptr);
  }
  CHECK(find_fitting("bow") == nullptr);
  CHECK(find_fitting("") == nullptr);
  CHECK(find_fitting("contraction from BORE") == nullptr);
}

TEST_CASE("part-open valves cost what the opening tables say", "[reference]") {
  struct Row {
    ValveType type;
    double open;
    double expected;
  };
  const std::string source = "design section 4: Weisbach, from memory";
  const Row row = GENERATE(values<Row>({{ValveType::Gate, 7.0 / 8.0, 0.07},
                                        {ValveType::Gate, 6.0 / 8.0, 0.26},
                                        {ValveType::Gate, 5.0 / 8.0, 0.81},
                                        {ValveType::Gate, 4.0 / 8.0, 2.06},
                                        {ValveType::Gate, 3.0 / 8.0, 5.52},
                                        {ValveType::Gate, 2.0 / 8.0, 17.0},
                                        {ValveType::Gate, 1.0 / 8.0, 98.0},
                                        {ValveType::Ball, 1.0 - 10.0 / 90.0, 0.29},
                                        {ValveType::Ball, 1.0 - 20.0 / 90.0, 1.56},
                                        {ValveType::Ball, 1.0 - 30.0 / 90.0, 5.5},
                                        {ValveType::Ball, 1.0 - 40.0 / 90.0, 17.0},
                                        {ValveType::Ball, 1.0 - 50.0 / 90.0, 53.0},
                                        {ValveType::Ball, 1.0 - 60.0 / 90.0, 206.0}}));
  CAPTURE(source, row.open);
  CHECK(valve_loss_coefficient(row.type, row.open, millimetres(26.6)) ==
        Approx(row.expected).epsilon(1e-10));
}

TEST_CASE("between the points of its table a valve's ln K runs straight, up to fully open") {
  const Length bore = millimetres(26.6);
  CHECK(valve_loss_coefficient(ValveType::Gate, 7.0 / 16.0, bore) ==
        Approx(std::sqrt(2.06 * 5.52)).epsilon(1e-12));
  CHECK(valve_loss_coefficient(ValveType::Gate, 1.0, bore) == Approx(8.0 * 0.023).epsilon(1e-12));
  CHECK(valve_loss_coefficient(ValveType::Ball, 1.0, bore) == Approx(3.0 * 0.023).epsilon(1e-12));
  CHECK(valve_loss_coefficient(ValveType::Ball, 17.0 / 18.0, bore) ==
        Approx(std::sqrt(0.29 * 0.069)).epsilon(1e-12));
  CHECK(least_opening(ValveType::Gate) == 0.125);
  CHECK(least_opening(ValveType::Ball) == Approx(1.0 / 3.0).epsilon(1e-15));
}

TEST_CASE("closing a valve never helps the water, but for the gate's last eighth", "[law]") {
  const Length bore = millimetres(26.6);
  for (const ValveType type : {ValveType::Gate, ValveType::Ball}) {
    const double widest = type == ValveType::Gate ? 7.0 / 8.0 : 1.0;
    double last = valve_loss_coefficient(type, widest, bore);
    for (double open = widest; open > least_opening(type); open -= 0.01) {
      CAPTURE(open);
      const double k = valve_loss_coefficient(type, open, bore);
      CHECK(k >= last);
      last = k;
    }
  }
}
