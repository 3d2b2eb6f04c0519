// The audit proves good answers and notices bad ones.
#include "solver/audit/audit.h"

#include <cmath>
#include <fstream>
#include <functional>
#include <iterator>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "render/words/audit.h"
#include "solver/audit/plain_law.h"
#include "tests/support/farm_text.h"

namespace leat::solver {

namespace {

using tests::solved;
using tests::SolvedFarm;

const std::vector<std::string> demos = {"01-over-the-rise",
                                        "02-high-trough",
                                        "03-ring-with-two-waters",
                                        "04-deep-dip",
                                        "05-tangle",
                                        "06-siphon-that-breaks"};

std::string demo_text(const std::string& name) {
  std::ifstream stream(std::string(LEAT_SOURCE_DIR) + "/networks-demo/" + name + ".yaml",
                       std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

/// The invented farm of the tests below: a spring over a rise, a creek, a settling tank with a
/// float, a seat, an opening, a foot valve, a regulator and a starved trough.
const char* const varied_farm = R"(farm: Sallow Bank
site: {altitude: 300 m, water: 11 C}
springs:
  upper: {overflow: 40 m, intake: 39.6 m, yield: 0.6 L/s}
  side: {overflow: 37 m, intake: 36.7 m, yield: 0.05 L/s}
creeks:
  brook: {surface: 33 m}
tanks:
  hill tank: {floor: 30 m, full: 1.5 m, depth: settle, diameter: 2 m}
troughs:
  low: {float: 12 m, need: 0.12 L/s, seat: 8 mm}
  high: {float: 26 m, need: 0.4 L/s, seat: 6 mm}
outlets:
  garden: {level: 15 m, opening: 6 mm}
  ditch: {level: 31 m}
tees:
  fork: 20 m
  gate: 18 m
pipes:
  main: {from: upper, to: hill tank, size: {bore: 26.6 mm}, length: 200 m,
         path: [[0 m, 39.6 m], [60 m, 38 m], [90 m, 41 m], [190 m, 31.5 m]], fittings: [strainer]}
  side line: {from: side, to: ditch, size: {bore: 20.9 mm}, length: 80 m}
  down: {from: hill tank, to: fork, size: {bore: 26.6 mm}, length: 150 m, fittings: [2 elbow]}
  lift: {from: brook, to: fork, size: {bore: 20.9 mm}, length: 90 m,
         fittings: [strainer, {hinged foot valve: start}]}
  link: {from: fork, to: gate, size: {bore: 20.9 mm}, length: 40 m, regulator: {at: start, set: 60 kPa}}
  to low: {from: gate, to: low, size: {bore: 15.8 mm}, length: 60 m}
  to high: {from: fork, to: high, size: {bore: 15.8 mm}, length: 70 m}
  to garden: {from: gate, to: garden, size: {bore: 15.8 mm}, length: 30 m,
              valve: {type: gate, open: 1/2, at: end}}
)";

AuditReport audit_of(const SolvedFarm& made) {
  return audit_answer(made.farm, made.answer);
}

/// One figure of an answer, by name.
struct Figure {
  std::string name;
  double* value;
};

/// Every printed figure of an answer that the audit is to guard.
std::vector<Figure> figures_of(const model::Farm& farm, SteadyAnswer& answer) {
  std::vector<Figure> figures;
  const auto add = [&](const std::string& name, std::optional<double>& value) {
    if (value) {
      figures.push_back({name, &*value});
    }
  };
  for (std::size_t i = 0; i < answer.places.size(); ++i) {
    PlaceAnswer& place = answer.places[i];
    const std::string& name = farm.places[i].name;
    figures.push_back({name + " elevation", &place.elevation_m});
    figures.push_back({name + " delivered", &place.delivered_m3_s});
    add(name + " head", place.head_m);
    add(name + " level", place.level_m);
    add(name + " pressure", place.pressure_Pa);
    add(name + " need", place.need_m3_s);
    add(name + " met", place.met);
    add(name + " spill", place.spill_m3_s);
  }
  for (std::size_t i = 0; i < answer.pipes.size(); ++i) {
    PipeAnswer& pipe = answer.pipes[i];
    const std::string& name = farm.pipes[i].name;
    figures.push_back({name + " flow", &pipe.flow_m3_s});
    figures.push_back({name + " velocity", &pipe.velocity_m_s});
    figures.push_back({name + " reynolds", &pipe.reynolds});
    add(name + " head loss", pipe.head_loss_m);
    add(name + " lowest pressure", pipe.lowest_pressure_Pa);
    add(name + " highest pressure", pipe.highest_pressure_Pa);
    for (SummitAnswer& summit : pipe.summits) {
      figures.push_back({name + " summit elevation", &summit.elevation_m});
      figures.push_back({name + " summit at", &summit.at_m});
      add(name + " summit absolute", summit.absolute_head_m);
      add(name + " summit margin", summit.margin_m);
    }
  }
  figures.push_back({"vapour pressure", &answer.vapour_pressure_Pa});
  figures.push_back({"air pressure", &answer.air_pressure_Pa});
  return figures;
}

/// Names of the figures that may be changed as `change` does without the audit noticing.
std::vector<std::string> unnoticed(SolvedFarm& made, const std::function<double(double)>& change) {
  std::vector<std::string> missed;
  for (const Figure& figure : figures_of(made.farm, made.answer)) {
    const double good = *figure.value;
    if (change(good) == good) {
      continue;  // nothing to notice: it is 0
    }
    *figure.value = change(good);
    if (audit_of(made).holds()) {
      missed.push_back(figure.name);
    }
    *figure.value = good;
  }
  REQUIRE(audit_of(made).holds());
  return missed;
}

}  // namespace

TEST_CASE("the answer for every demo farm proves itself in every load case") {
  for (const std::string& demo : demos) {
    for (const LoadCase load_case : {LoadCase::Needs, LoadCase::Wide, LoadCase::Static}) {
      const SolvedFarm made = solved(demo_text(demo), load_case);
      const AuditReport report = audit_of(made);
      INFO(demo << " " << word_of(load_case) << ": " << render::audit_sentence(report));
      CHECK(report.holds());
      CHECK(report.balances == made.farm.places.size());
    }
  }
}

TEST_CASE("a farm with tank, springs, seats, regulator and foot valve proves itself wholly") {
  SolvedFarm made = solved(varied_farm);
  REQUIRE(made.answer.converged);
  const AuditReport report = audit_of(made);
  INFO(render::audit_sentence(report));
  CHECK(report.holds());
  CHECK(report.pipes == made.farm.pipes.size());
  CHECK(report.balances == made.farm.places.size());
  CHECK(report.largest_head_difference_m < 1e-4);
}

TEST_CASE("a figure one in a hundred wrong is noticed wherever it stands") {
  SolvedFarm made = solved(varied_farm);
  const std::vector<std::string> up = unnoticed(made, [](double figure) { return figure * 1.01; });
  const std::vector<std::string> down =
      unnoticed(made, [](double figure) { return figure * 0.99; });
  // The side spring is drawn down: where its line runs part full no pressure is worked out again.
  const std::vector<std::string> open = {"side line highest pressure"};
  CHECK(up == open);
  CHECK(down == open);
}

TEST_CASE("a figure with its sign turned is noticed wherever it stands") {
  SolvedFarm made = solved(varied_farm);
  const std::vector<std::string> missed = unnoticed(made, [](double figure) { return -figure; });
  CHECK(missed == std::vector<std::string>{"side line highest pressure"});
}

TEST_CASE("figures one in a hundred wrong are noticed on every demo farm") {
  // What cannot be checked from outside: pressures in a line that runs part full, and on the two
  // sides of a shut valve. Nor is a figure that is 0 changed by a share of it.
  const std::map<std::string, std::vector<std::string>> open = {
      {"02-high-trough", {"main highest pressure"}},
      {"03-ring-with-two-waters", {"spring line highest pressure"}},
      {"05-tangle",
       {"fern line highest pressure",
        "cross valve lowest pressure",
        "cross valve highest pressure"}}};
  for (const std::string& demo : demos) {
    SolvedFarm made = solved(demo_text(demo));
    const auto expected = open.find(demo);
    CAPTURE(demo);
    CHECK(unnoticed(made, [](double figure) { return figure * 1.01; }) ==
          (expected == open.end() ? std::vector<std::string>{} : expected->second));
  }
}

TEST_CASE("a summit said to hold that parts, and one said to part that holds, are noticed") {
  SolvedFarm made = solved(varied_farm);
  bool& parted = made.answer.pipes.front().summits.at(0).parted;
  parted = !parted;
  CHECK_FALSE(audit_of(made).holds());
}

TEST_CASE("two branches that exchange their flows are noticed although all tees balance") {
  SolvedFarm made = solved(
      "farm: Twin Reach\ncreeks:\n  brook: {surface: 20 m}\noutlets:\n  left: {level: 10 m}\n"
      "  right: {level: 10 m}\ntees:\n  fork: 15 m\npipes:\n"
      "  main: {from: brook, to: fork, size: {bore: 26.6 mm}, length: 30 m}\n"
      "  to left: {from: fork, to: left, size: {bore: 15.8 mm}, length: 50 m}\n"
      "  to right: {from: fork, to: right, size: {bore: 15.8 mm}, length: 90 m}\n");
  REQUIRE(audit_of(made).holds());
  std::swap(made.answer.pipes[1], made.answer.pipes[2]);
  std::swap(made.answer.places[1], made.answer.places[2]);
  CHECK_FALSE(audit_of(made).holds());
}

TEST_CASE("the answer of another farm does not pass for this one's") {
  SolvedFarm made = solved(varied_farm);
  made.answer.pipes.pop_back();
  CHECK_FALSE(audit_of(made).holds());
  SolvedFarm longer = solved(varied_farm);
  longer.farm.pipes[4].length = longer.farm.pipes[4].length * 1.02;
  CHECK_FALSE(audit_of(longer).holds());
  SolvedFarm wider = solved(varied_farm);
  wider.farm.pipes[2].fittings.clear();
  CHECK_FALSE(audit_of(wider).holds());
}

TEST_CASE("the plain friction factor is that of the Moody chart's usual examples") {
  // Colebrook's own equation worked by hand: at Re 1e5, e/D 0 it is met by f = 0.01799
  // (1/sqrt f = 7.4556; 2 log10(1e5 / (2.51 x 7.4556)) = 2 log10(5343.8) = 7.4557).
  CHECK(audit::plain_friction_factor(1e5, 0.0) == Approx(0.01799).epsilon(2e-4));
  // Laminar: 64 / 1000.
  CHECK(audit::plain_friction_factor(1000.0, 0.0) == Approx(0.064));
  // The bridge meets both neighbours.
  CHECK(audit::plain_friction_factor(2000.0001, 1e-4) == Approx(0.032).epsilon(1e-6));
  CHECK(audit::plain_friction_factor(3999.9999, 1e-4) ==
        Approx(audit::plain_friction_factor(4000.0, 1e-4)).epsilon(1e-6));
}

TEST_CASE("the plain water is that of the tables") {
  // 20 C: 998.2 kg/m3, 1.0034e-6 m2/s, 2339 Pa (IAPWS, from memory).
  CHECK(audit::plain_density_kg_m3(celsius(20.0)) == Approx(998.207).epsilon(1e-5));
  CHECK(audit::plain_viscosity_m2_s(celsius(20.0)) == Approx(1.0034e-6).epsilon(1e-3));
  CHECK(audit::plain_vapour_pressure_Pa(celsius(20.0)) == Approx(2339.0).epsilon(2e-3));
  CHECK(audit::plain_air_pressure_Pa(metres(1000.0)) == Approx(89876.0).epsilon(5e-4));
}

}  // namespace leat::solver
