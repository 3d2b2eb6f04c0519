// solver/METHOD.md: every worked example is what the public functions give, and no section is told
// without its question, limits and tests.
#include <cmath>
#include <fstream>
#include <functional>
#include <map>
#include <numbers>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "model/quantity/quantity.h"
#include "solver/hydraulics/air_pressure.h"
#include "solver/hydraulics/air_sweep.h"
#include "solver/hydraulics/friction.h"
#include "solver/hydraulics/head_loss.h"
#include "solver/hydraulics/intake_cover.h"
#include "solver/hydraulics/orifice.h"
#include "solver/hydraulics/pipe_rating.h"
#include "solver/hydraulics/pressure_wave.h"
#include "solver/hydraulics/ring_collapse.h"
#include "solver/hydraulics/water.h"
#include "solver/hydrology/curve_number.h"
#include "solver/hydrology/humidity.h"
#include "solver/hydrology/pond_volume.h"
#include "solver/hydrology/pump.h"
#include "solver/hydrology/ram.h"
#include "solver/hydrology/seepage.h"
#include "solver/nodal/smooth_min.h"
#include "solver/uncertainty/measurement_error.h"
#include "tests/docs/document.h"
#include "tests/support/weir.h"

namespace leat::tests {

namespace {

const std::string method_page = "solver/METHOD.md";

/// SI values of units the page writes; temperatures stay in C, rain and seepage in mm.
const std::map<std::string, double> units = {
    {"", 1.0},
    {"m", 1.0},
    {"mm", 1e-3},
    {"m/s", 1.0},
    {"m2/s", 1.0},
    {"m3", 1.0},
    {"L/s", 1e-3},
    {"L/min", 1e-3 / 60.0},
    {"gal/min", metres_per_foot* metres_per_foot* metres_per_foot * 231.0 / 1728.0 / 60.0},
    {"kPa", 1e3},
    {"MPa", 1e6},
    {"GPa", 1e9},
    {"psi", pascals_per_psi},
    {"kg/m3", 1.0},
    {"C", 1.0},
    {"s", 1.0},
    {"W", 1.0},
    {"mm/day", 1.0},
    {"mm rain", 1.0},
    {"%", 0.01},
    {"degrees", std::numbers::pi / 180.0}};

double factor_of(const std::string& unit) {
  INFO("unit " << unit);
  REQUIRE(units.contains(unit));
  return units.at(unit);
}

/// A number and its unit, in SI.
double value_of(const std::string& text) {
  std::istringstream stream(text);
  double number = 0.0;
  stream >> number;
  INFO("value " << text);
  REQUIRE(!stream.fail());
  std::string unit;
  stream >> unit;
  return number * factor_of(unit);
}

/// What an example puts in: "flow 20 L/min" as flow, "20 L/min".
class Inputs {
 public:
  explicit Inputs(const std::string& text) {
    std::istringstream stream(text);
    for (std::string part; std::getline(stream, part, ',');) {
      part.erase(0, part.find_first_not_of(' '));
      const std::size_t figure = part.find_first_of("0123456789");
      const std::size_t behind = part.starts_with("soil ") ? 5 : figure;
      REQUIRE(behind != std::string::npos);
      given_[behind == 0 ? "" : part.substr(0, behind - 1)] = part.substr(behind);
    }
  }
  [[nodiscard]] std::string text(const std::string& name) const {
    INFO("input " << name);
    REQUIRE(given_.contains(name));
    return given_.at(name);
  }
  [[nodiscard]] double operator[](const std::string& name) const { return value_of(text(name)); }
  /// A depth of rain or a bore written in mm, kept in mm.
  [[nodiscard]] double in_mm(const std::string& name) const { return (*this)[name] * 1e3; }
  [[nodiscard]] hydraulics::Water water() const {
    return hydraulics::water_at(celsius((*this)["water"]));
  }

 private:
  std::map<std::string, std::string> given_;
};

double velocity(const Inputs& in) {
  return in["flow"] / (std::numbers::pi / 4.0 * in["bore"] * in["bore"]);
}

double friction(const Inputs& in) {
  const hydraulics::FrictionLaw law = hydraulics::darcy_weisbach(
      in["bore"], in["length"], in["roughness"], in.water().kinematic_viscosity_m2_s);
  return hydraulics::friction_loss(law, in["flow"]).loss_m;
}

double fitting(const Inputs& in) {
  hydraulics::StretchLaw law;
  law.friction = hydraulics::fixed_factor(in["bore"], 0.0, 0.02);
  law.bore_m = in["bore"];
  law.forward_k = in["K"];
  return hydraulics::stretch_loss(law, in["flow"]).loss_m;
}

double opening_head(const Inputs& in) {
  const double area_m2 = std::numbers::pi / 4.0 * in["bore"] * in["bore"];
  return hydraulics::lifting_opening_head_m(in["bore"], {in["K"], in["lifting speed"] * area_m2});
}

double valve_passing(const Inputs& in) {
  const std::string said = in.text("");
  const std::size_t at = said.find(" at ");
  REQUIRE(at != std::string::npos);
  const hydraulics::OrificeLaw law =
      hydraulics::orifice_passing(value_of(said.substr(0, at)), value_of(said.substr(at + 4)));
  return hydraulics::orifice_loss(law, in["flow"]).loss_m;
}

double bucket(const Inputs& in) {
  return solver::bucket_error_share(in["time"]);
}

using Function = std::function<double(const Inputs&)>;

/// What stands before the colon of an example, and the function it means; results in SI.
const std::map<std::string, Function>& functions() {
  using namespace hydraulics;
  using namespace hydrology;
  static const std::map<std::string, Function> all = {
      {"smoothed min",
       [](const Inputs& in) { return nodal::smooth_min(in["a"], in["b"], in["mu"]).value; }},
      {"density", [](const Inputs& in) { return in.water().density_kg_m3; }},
      {"viscosity", [](const Inputs& in) { return in.water().kinematic_viscosity_m2_s; }},
      {"vapour pressure", [](const Inputs& in) { return in.water().vapour_pressure_Pa; }},
      {"air pressure",
       [](const Inputs& in) { return air_pressure_at(metres(in["altitude"])).in_si(); }},
      {"velocity", velocity},
      {"Reynolds number",
       [](const Inputs& in) {
         const FrictionLaw law =
             darcy_weisbach(in["bore"], 1.0, 0.0, in.water().kinematic_viscosity_m2_s);
         return law.reynolds_per_flow * in["flow"];
       }},
      {"friction factor",
       [](const Inputs& in) {
         return colebrook_friction_factor(in["Reynolds number"], in["roughness"] / in["bore"]);
       }},
      {"friction", friction},
      {"fixed factor",
       [](const Inputs& in) {
         return friction_loss(fixed_factor(in["bore"], in["length"], in["factor"]), in["flow"])
             .loss_m;
       }},
      {"Hazen-Williams",
       [](const Inputs& in) {
         return friction_loss(hazen_williams(in["bore"], in["length"], in["C"]), in["flow"]).loss_m;
       }},
      {"velocity head", [](const Inputs& in) { return velocity_head_m(in["bore"], in["flow"]); }},
      {"K loss", fitting},
      {"opening head", opening_head},
      {"orifice",
       [](const Inputs& in) {
         return orifice_loss(orifice(in["bore"], in["cd"]), in["flow"]).loss_m;
       }},
      {"flow through orifice",
       [](const Inputs& in) { return orifice_flow(orifice(in["bore"], in["cd"]), in["head"]); }},
      {"valve passing", valve_passing},
      {"rating by inside",
       [](const Inputs& in) {
         return rating_by_inside(pascals(in["stress"]), in["SIDR"]).in_si();
       }},
      {"rating by outside",
       [](const Inputs& in) { return rating_by_outside(pascals(in["stress"]), in["DR"]).in_si(); }},
      {"derating",
       [](const Inputs& in) { return polyethylene_derating(celsius(in["water"])).value(); }},
      {"air stays below",
       [](const Inputs& in) { return air_sweep(in["bore"], in["angle"]).stays_below_m_s; }},
      {"air swept from",
       [](const Inputs& in) { return air_sweep(in["bore"], in["angle"]).swept_above_m_s; }},
      {"wave speed",
       [](const Inputs& in) {
         return wave_speed_m_s(in["density"], in["modulus"], in["bore"], in["wall"]);
       }},
      {"sudden stop",
       [](const Inputs& in) { return sudden_stop_head_m(in["wave speed"], in["velocity"]); }},
      {"slow stop",
       [](const Inputs& in) {
         return slow_stop_head_m(in["length"] * in["velocity"], in["time"]);
       }},
      {"ring collapse", [](const Inputs& in) { return ring_buckling_Pa(in["modulus"], in["DR"]); }},
      {"out of round", [](const Inputs& in) { return ovality_share(in["ovality"]); }},
      {"warm modulus", [](const Inputs& in) { return warm_modulus_share(celsius(in["water"])); }},
      {"intake cover",
       [](const Inputs& in) { return intake_cover_needed_m(in["bore"], in["velocity"]); }},
      {"tanks", [](const Inputs& in) { return break_pressure_tanks(in["fall"], in["limit"]); }},
      {"saturation vapour pressure",
       [](const Inputs& in) { return 1e3 * saturation_vapour_pressure_kPa(in["air"]); }},
      {"runoff",
       [](const Inputs& in) { return 1e-3 * day_runoff_mm(in.in_mm("rain"), in["curve number"]); }},
      {"seepage",
       [](const Inputs& in) {
         return middle_mm_per_day(seepage_of_soil(in.text("soil")).value());
       }},
      {"notch",
       [](const Inputs& in) {
         CHECK(in.text("angle") == "90 degrees");
         return right_angle_notch_m3_s(in["head"]);
       }},
      {"ram",
       [](const Inputs& in) {
         return in["drive"] * ram_share(in["lift"] / in["fall"], in["efficiency"]).share;
       }},
      {"pump power",
       [](const Inputs& in) {
         return pump_power_W(in["flow"], in["head"], in["efficiency"], in["density"]);
       }},
      {"dug pond",
       [](const Inputs& in) {
         return PondVolume::prism(10.0, in["length"], in["width"], in["sides"], in["depth"])
             .full_volume_m3();
       }},
      {"round pond",
       [](const Inputs& in) {
         return PondVolume::cone(10.0, in["diameter"], in["sides"], in["depth"]).full_volume_m3();
       }},
      {"bucket error", bucket},
  };
  return all;
}

/// Half a unit of the last digit that stands in a written figure: 0.0005e-6 for "1.306e-6".
double half_of_last_digit(const std::string& figure) {
  const std::size_t exponent_at = figure.find('e');
  const std::string digits = figure.substr(0, exponent_at);
  const std::size_t point = digits.find('.');
  const auto decimals =
      point == std::string::npos ? 0 : static_cast<int>(digits.size() - point - 1);
  const int exponent =
      exponent_at == std::string::npos ? 0 : std::stoi(figure.substr(exponent_at + 1));
  return 0.5 * std::pow(10.0, exponent - decimals);
}

}  // namespace

TEST_CASE("every worked example of METHOD.md is what the functions give") {
  int examples = 0;
  for (const FencedBlock& block : fenced_blocks(document(method_page))) {
    for (const std::string& line :
         block.kind == "worked" ? block.lines : std::vector<std::string>{}) {
      CAPTURE(line);
      const std::size_t colon = line.find(": ");
      const std::size_t arrow = line.find(" -> ");
      REQUIRE(colon != std::string::npos);
      REQUIRE(arrow != std::string::npos);
      const std::string name = line.substr(0, colon);
      REQUIRE(functions().contains(name));
      std::istringstream result(line.substr(arrow + 4));
      std::string figure;
      std::string unit;
      result >> figure >> unit;
      const Inputs inputs(line.substr(colon + 2, arrow - colon - 2));
      const double given = functions().at(name)(inputs) / factor_of(unit);
      // Rounded by hand, a figure may be off by half its last digit and a hair.
      CHECK(std::abs(given - std::stod(figure)) <= 1.001 * half_of_last_digit(figure));
      ++examples;
    }
  }
  CHECK(examples > 30);
}

TEST_CASE("every section of METHOD.md says what it answers and where it is tested") {
  const std::string text = document(method_page);
  int sections = 0;
  for (const std::string& line : lines_of(text)) {
    if (line.starts_with("## ")) {
      CAPTURE(line);
      const std::string told = section(text, line.substr(3));
      CHECK(told.find("**Tested**") != std::string::npos);
      const bool asks = told.find("**Question.**") != std::string::npos ||
                        told.find(" asks ") != std::string::npos;
      CHECK(asks);
      CHECK(told.find("`tests/") != std::string::npos);
      ++sections;
    }
  }
  CHECK(sections == 14);
}

TEST_CASE("every file METHOD.md names is there") {
  const std::string text = document(method_page);
  for (const std::string& name : code_spans(text)) {
    const bool is_test_file = name.starts_with("tests/") && name.find('*') == std::string::npos &&
                              name.find(' ') == std::string::npos;
    if (is_test_file) {
      CAPTURE(name);
      std::ifstream stream(std::string(LEAT_SOURCE_DIR) + "/" + name);
      CHECK(stream.good());
    }
  }
}

}  // namespace leat::tests
