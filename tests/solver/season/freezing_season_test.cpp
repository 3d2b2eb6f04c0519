// Frost on a farm: nights, flows that keep pipes open, water that stands, where it is drained.
#include "solver/season/freezing_season.h"

#include <stdexcept>
#include <string>
#include <variant>
#include <vector>

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::tests {

namespace {

using solver::FrostAnswer;
using solver::FrostVerdict;

constexpr double litre_a_minute = 1e-3 / 60.0;
const model::Date december_first{2026, 12, 1};
const model::Date december_last{2026, 12, 31};

/// A line of two pipes to a pond and a branch to a trough. Still air at -3 C in the usual night.
std::string farm_text(const std::string& weather = "{tmin: -3 C, wind: 0 m/s}",
                      const std::string& lies = "sun",
                      const std::string& water = "8 C") {
  const std::string size = "size: {bore: 26.6 mm, wall: 3.4 mm}";
  return "farm: frost\nsite: {water: " + water + "}\n" +
         (weather.empty() ? "" : "weather: " + weather + "\n") +
         "springs: {up: {overflow: 100 m, yield: 20 L/min}}\n"
         "ponds: {foot: {surface: 80 m}}\n"
         "tees: {t: 94 m}\ntroughs: {low: {float: 90 m}}\npipes:\n"
         "  main: {from: up, to: t, " +
         size + ", length: 30 m, lies: " + lies + "}\n" + "  down: {from: t, to: foot, " + size +
         ", length: 30 m, lies: grass}\n" + "  branch: {from: t, to: low, " + size +
         ", lies: buried, length: 30 m}\n";
}

FrostAnswer december(const std::string& text, const std::vector<double>& flows_l_min = {}) {
  std::vector<double> flows;
  for (const double flow : flows_l_min) {
    flows.push_back(flow * litre_a_minute);
  }
  return solver::freezing_season(farm_of(text), december_first, december_last, flows);
}

TEST_CASE("of nights that stray normally about their month half lie on either side",
          "[reference]") {
  // Normal distribution, any table of it: Phi(0) = 0.5, Phi(1) = 0.84134, Phi(-1) = 0.15866.
  const auto freezing = [](const std::string& tmin) {
    const FrostAnswer answer = december(farm_text("{tmin: " + tmin + "}"));
    REQUIRE(answer.months.size() == 1);
    CHECK(answer.months[0].nights == 31);
    CHECK_FALSE(answer.months[0].measured);
    return answer.months[0].freezing;
  };
  CHECK(freezing("0 C") == Approx(15.5));
  CHECK(freezing("-4.5 C") == Approx(31 * 0.84134).epsilon(1e-4));
  CHECK(freezing("4.5 C") == Approx(31 * 0.15866).epsilon(1e-4));
}

TEST_CASE("nights that were measured are counted and the coldest of them is reckoned with") {
  model::Farm farm = farm_of(farm_text("{wind: 0 m/s}"));
  const std::vector<double> nights_C = {-1.0, 0.0, 2.0, -6.5, -0.1, 4.0};
  for (std::size_t i = 0; i < nights_C.size(); ++i) {
    model::WeatherDay day;
    day.on = {2026, 12, static_cast<int>(i) + 1};
    day.tmin = celsius(nights_C[i]);
    farm.weather->days.push_back(day);
  }
  const FrostAnswer answer = solver::freezing_season(farm, {2026, 11, 20}, december_last);
  REQUIRE(answer.months.size() == 1);
  CHECK(answer.months[0].month == model::Month::Dec);
  CHECK(answer.months[0].measured);
  CHECK(answer.months[0].nights == 6);
  CHECK(answer.months[0].freezing == 3.0);
  CHECK(answer.months[0].usual_night_C == Approx(-1.6 / 6.0));
  REQUIRE(answer.coldest);
  CHECK(answer.coldest->air_C == -6.5);
  CHECK(answer.coldest->on == model::Date{2026, 12, 4});
  CHECK(answer.coldest->measured);
}

TEST_CASE("the least flow of a bare line is the heat balance's", "[reference]") {
  // Hand arithmetic, tube in a uniform surrounding (Incropera and DeWitt, from memory). Coldest
  // night -3 - 2 x 4.5 = -12 C. Wall ln(33.4/26.6)/(2 pi 0.40) = 0.09059, still air at 11 W/m2 K
  // 1/(pi 0.0334 x 11) = 0.86639 m K/W: 1.04496 W/m K. 30 m: 31.349 / (4.21e6 x ln(20/12.5)) =
  // 1.5843e-5 m3/s = 0.9506 L/min; 60 m twice that.
  const FrostAnswer answer = december(farm_text());
  REQUIRE(answer.coldest);
  CHECK(answer.coldest->air_C == Approx(-12.0));
  CHECK(answer.coldest->water_C == Approx(8.0));
  REQUIRE(answer.pipes.size() == 2);
  CHECK(answer.pipes[0].loss_W_m_K == Approx(1.04496).epsilon(1e-4));
  CHECK(*answer.pipes[0].least_flow_m3_s / litre_a_minute == Approx(0.9506).epsilon(1e-3));
  CHECK(*answer.pipes[1].least_flow_m3_s / litre_a_minute == Approx(1.9012).epsilon(1e-3));
  CHECK(answer.pipes[1].exposed_m == Approx(60.0));
  // Standing: 4.21e6 x 5.5572e-4 m2 / 1.04496 x ln(20/12) = 1143.7 s; ice 334e6 x 5.5572e-4 /
  // (1.04496 x 12) = 14 802 s more.
  CHECK(answer.pipes[0].first_ice_h == Approx(1143.7 / 3600.0).epsilon(1e-3));
  CHECK(answer.pipes[0].solid_h == Approx((1143.7 + 14802.0) / 3600.0).epsilon(1e-3));
}

TEST_CASE("buried pipe loses nothing on the way and is not listed") {
  const FrostAnswer answer = december(farm_text("{tmin: -3 C, wind: 0 m/s}", "buried"));
  REQUIRE(answer.pipes.size() == 1);
  CHECK(answer.pipes[0].pipe == 1);
  CHECK(*answer.pipes[0].least_flow_m3_s / litre_a_minute == Approx(0.9506).epsilon(1e-3));
}

TEST_CASE("a pipe the file says nothing of is doubted, not condemned") {
  std::string text = farm_text();
  text.replace(text.find(", lies: sun"), 11, "");
  const FrostAnswer answer = december(text);
  CHECK(answer.pipes[0].lies_untold);
  CHECK_FALSE(answer.pipes[1].lies_untold);
}

TEST_CASE("a flow is enough at twice the least, too little at half, doubtful between") {
  // Least: 0.9506 in `main` alone. `down` gets what cools in both: carrying all, 1.9012.
  const auto verdict = [](double flow_l_min) {
    return december(farm_text(), {flow_l_min, flow_l_min, 0.0}).pipes[1].verdict;
  };
  CHECK(verdict(4.0) == FrostVerdict::Enough);
  CHECK(verdict(3.7) == FrostVerdict::Doubtful);
  CHECK(verdict(1.0) == FrostVerdict::Doubtful);
  CHECK(verdict(0.9) == FrostVerdict::TooLittle);
  CHECK(verdict(0.0) == FrostVerdict::Still);
  CHECK(december(farm_text()).pipes[1].verdict == FrostVerdict::Untold);
}

TEST_CASE("a main that carries three times as much brings its water warmer") {
  // The main's heat is shared by three times the flow: 0.9506 x (1/3 + 1).
  const FrostAnswer answer = december(farm_text(), {9.0, 3.0, 6.0});
  CHECK(*answer.pipes[1].least_flow_m3_s / litre_a_minute ==
        Approx(0.9506 * 4.0 / 3.0).epsilon(1e-3));
}

TEST_CASE("a line that runs backwards is cooled from its other end") {
  // Pond to tee and on up the main: the same 60 m, now counted at the main.
  const FrostAnswer answer = december(farm_text(), {-5.0, -5.0, 0.0});
  CHECK(answer.pipes[0].exposed_m == Approx(60.0));
  CHECK(answer.pipes[1].exposed_m == Approx(30.0));
  CHECK(answer.pipes[0].verdict == FrostVerdict::Enough);
}

TEST_CASE("a line to floats alone stands still by night whatever it gives by day") {
  std::string text = farm_text();
  text.replace(text.find("lies: buried"), 12, "lies: grass");
  const FrostAnswer answer = december(text, {20.0, 10.0, 10.0});
  REQUIRE(answer.pipes.size() == 3);
  CHECK_FALSE(answer.pipes[0].feeds_floats_only);
  CHECK(answer.pipes[0].verdict == FrostVerdict::Enough);
  CHECK(answer.pipes[2].feeds_floats_only);
  CHECK(answer.pipes[2].verdict == FrostVerdict::Still);
  REQUIRE(answer.troughs.size() == 1);
  CHECK(answer.troughs[0].verdict == FrostVerdict::Still);
}

TEST_CASE("an open hole asks for the heat its surface gives off") {
  // Water at 0.5 C, air -12 C, 80 %, calm. e(0.5) 0.6334, e(-12) 0.6108 exp(-207.24/225.3) = 0.2434
  // kPa: 2.8 x (12.5 + (0.6334 - 0.1947)/0.066) = 53.6; sky -32 C: 0.96 x 5.67e-8 x (273.65^4 -
  // 241.15^4) = 121.2: 174.8 W/m2 on 0.25 m2, 43.7 W from 7.5 C of cooling: 1.384e-6 m3/s.
  const FrostAnswer answer = december(farm_text());
  REQUIRE(answer.troughs.size() == 1);
  CHECK(*answer.troughs[0].least_inflow_m3_s == Approx(1.384e-6).epsilon(5e-3));
}

TEST_CASE("the low points of a path stand below both neighbours") {
  const model::Farm farm = farm_of(
      "farm: dips\ncreeks: {ford: {surface: 100 m}}\noutlets: {end: {level: 90 m}}\npipes:\n"
      "  a: {from: ford, to: end, size: 1 in SIDR 15, path: [[0 m, 99 m], [40 m, 97 m], "
      "[90 m, 98 m], [120 m, 93 m], [140 m, 93 m], [160 m, 94 m], [170 m, 92 m], [180 m, 92 m], "
      "[200 m, 90 m]]}\n");
  const auto lows = solver::low_points(farm, 0);
  REQUIRE(lows.size() == 2);
  CHECK(lows[0].at_m == 40.0);
  CHECK(lows[0].elevation_m == 97.0);
  CHECK(lows[1].at_m == 120.0);
}

TEST_CASE("a tee that every pipe leaves upward holds water") {
  std::string text = farm_text();
  CHECK(december(text).low_tees.empty());
  text.replace(text.find("t: 94 m"), 7, "t: 78 m");
  const FrostAnswer answer = december(text);
  REQUIRE(answer.low_tees.size() == 1);
  CHECK(answer.low_tees[0].elevation_m == 78.0);
  CHECK(std::get<solver::LowTees>(answer.notes.back()).tees == std::vector<std::string>{"t"});
}

TEST_CASE("water that nothing is said of is not taken for warm in winter") {
  const FrostAnswer answer = december(farm_text("{tmin: -3 C}", "sun", "15 C"));
  REQUIRE(answer.coldest);
  CHECK(answer.coldest->water_C == 7.0);
  const FrostAnswer cold = december(farm_text("{tmin: -3 C}", "sun", "0.5 C"));
  CHECK_FALSE(cold.pipes[0].least_flow_m3_s);
  CHECK(cold.pipes[0].water_C == 0.5);
}

TEST_CASE("where no night is told of there is nothing but a word that says so") {
  for (const std::string weather : {"", "{tmax: 2 C}"}) {
    const FrostAnswer answer = december(farm_text(weather));
    CHECK(answer.months.empty());
    CHECK_FALSE(answer.coldest);
    CHECK(answer.pipes.empty());
    CHECK(answer.troughs.empty());
    REQUIRE(answer.notes.size() == 1);
    CHECK(std::holds_alternative<solver::FrostUntold>(answer.notes[0]));
  }
}

TEST_CASE("a mild winter has its nights and nothing that freezes") {
  const FrostAnswer answer = december(farm_text("{tmin: 12 C}"));
  REQUIRE(answer.months.size() == 1);
  CHECK(answer.months[0].freezing < 0.2);
  CHECK_FALSE(answer.coldest);
  CHECK(answer.pipes.empty());
  CHECK_FALSE(std::get<solver::FrostNights>(answer.notes.at(0)).coldest);
}

TEST_CASE("the notes of frost are the nights, how far they may be trusted, and the troughs") {
  const FrostAnswer answer = december(farm_text());
  REQUIRE(answer.notes.size() == 3);
  const auto& nights = std::get<solver::FrostNights>(answer.notes[0]);
  REQUIRE(nights.months.size() == 1);
  CHECK(nights.months[0].nights == 31);
  CHECK(nights.coldest.value().air_C == Approx(-12.0));
  CHECK(std::holds_alternative<solver::FrostRules>(answer.notes[1]));
  const auto& troughs = std::get<solver::FrostAtTroughs>(answer.notes[2]);
  CHECK(troughs.troughs == std::vector<std::string>{"low"});
  CHECK(troughs.water_C == Approx(8.0));
  CHECK(troughs.hole_m2 == 0.25);
}

TEST_CASE("flows for other than every pipe are refused") {
  CHECK_THROWS_AS(december(farm_text(), {1.0}), std::invalid_argument);
}

}  // namespace

}  // namespace leat::tests
