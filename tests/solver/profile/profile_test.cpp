// A run of pipes from the side: which pipes, which points, and the heads at them by hand.
#include "solver/profile/profile.h"

#include <algorithm>
#include <cmath>
#include <variant>

#include <catch2/catch.hpp>

#include "solver/hydraulics/head_loss.h"
#include "tests/support/farm_text.h"

namespace leat::tests {

namespace {

using solver::Profile;
using solver::ProfileMark;
using solver::ProfilePoint;

Profile profile_of(const model::Farm& farm, const std::string& words) {
  Profile profile = solver::profile_of(farm, words, {});
  CAPTURE(words);
  REQUIRE(profile.is_made());
  return profile;
}

/// Throws std::bad_variant_access where the problem is none of that kind.
template <class Problem>
Problem problem_of(const model::Farm& farm, const std::string& words) {
  const Profile profile = solver::profile_of(farm, words, {});
  REQUIRE(profile.problem.has_value());
  CHECK(profile.points.empty());
  return std::get<Problem>(*profile.problem);
}

/// Names of the run's pipes, those walked against their direction behind a minus.
std::string pipes_of(const model::Farm& farm, const Profile& profile) {
  std::string names;
  for (const solver::ProfileLeg& leg : profile.legs) {
    names += (leg.leg.against ? "-" : "+") + farm.pipes[leg.leg.pipe].name;
  }
  return names;
}

const ProfilePoint& marked(const Profile& profile, ProfileMark mark) {
  const auto found = std::find_if(profile.points.begin(),
                                  profile.points.end(),
                                  [mark](const ProfilePoint& each) { return each.mark == mark; });
  REQUIRE(found != profile.points.end());
  return *found;
}

long count_of(const Profile& profile, ProfileMark mark) {
  return std::count_if(profile.points.begin(),
                       profile.points.end(),
                       [mark](const ProfilePoint& each) { return each.mark == mark; });
}

/// The last point at a distance along the run.
const ProfilePoint& last_at(const Profile& profile, double distance_m) {
  const ProfilePoint* found = nullptr;
  for (const ProfilePoint& point : profile.points) {
    if (std::abs(point.distance_m - distance_m) < 1e-9) {
      found = &point;
    }
  }
  REQUIRE(found != nullptr);
  return *found;
}

// Two ways from the creek to the far tee, over one tee each, and a branch to a pond.
constexpr const char* ring = R"(
farm: ring
creeks: {c: {surface: 100 m}}
tees: {left: 90 m, right: 90 m, far: 85 m}
ponds: {p: {surface: 80 m}}
pipes:
  a: {from: c, to: left, size: 1 in SIDR 15, length: 50 m}
  b: {from: c, to: right, size: 1 in SIDR 15, length: 60 m}
  d: {from: left, to: far, size: 1 in SIDR 15, length: 70 m}
  e: {from: far, to: right, size: 1 in SIDR 15, length: 80 m}
  f: {from: far, to: p, size: 1 in SIDR 15, length: 90 m}
)";

constexpr const char* siphon = R"(
farm: over
creeks: {c: {surface: 100 m}}
ponds: {p: {surface: 90 m}}
pipes:
  a: {from: c, to: p, size: 1 in SIDR 15, path: [[0 m, 99 m], [60 m, 103 m], [100 m, 89 m]],
      fittings: [{k 20: 30 m}]}
)";

}  // namespace

TEST_CASE("a run between two places takes the fewest pipes, whichever way they are written") {
  const model::Farm farm = farm_of(ring);
  CHECK(pipes_of(farm, profile_of(farm, "left..p")) == "+d+f");
  CHECK(pipes_of(farm, profile_of(farm, "right .. far")) == "-e");
  CHECK(pipes_of(farm, profile_of(farm, "p..left")) == "-f-d");
  CHECK(pipes_of(farm, profile_of(farm, "e")) == "+e");
}

TEST_CASE("two ways of equally many pipes are listed and none is taken") {
  const auto problem = problem_of<solver::SeveralRoutes>(farm_of(ring), "c..p");
  CHECK(problem.words == "c..p");
  CHECK(problem.routes == std::vector<std::vector<std::string>>{{"a", "d", "f"}, {"b", "e", "f"}});
  CHECK_FALSE(problem.has_more);
}

TEST_CASE("a run that cannot be found says what is wrong with its name") {
  const model::Farm farm = farm_of(ring);
  CHECK(problem_of<solver::UnknownPipe>(farm, "nosuch").name == "nosuch");
  CHECK_FALSE(problem_of<solver::UnknownPipe>(farm, "nosuch").is_place);
  CHECK(problem_of<solver::UnknownPlace>(farm, "left..rigth").name == "rigth");
  CHECK(problem_of<solver::UnknownPlace>(farm, "left..rigth").near == "right");
  CHECK(problem_of<solver::RunToItself>(farm, "left..left").words == "left..left");
  CHECK(problem_of<solver::UnknownPipe>(farm, "far").is_place);
  CHECK(problem_of<solver::UnknownPlace>(farm, "..").name.empty());
}

TEST_CASE("two waters that no pipes join have no run between them") {
  const model::Farm farm = farm_of(R"(
farm: apart
creeks: {c: {surface: 100 m}, d: {surface: 90 m}}
ponds: {p: {surface: 80 m}, q: {surface: 70 m}}
pipes:
  a: {from: c, to: p, size: 1 in SIDR 15, length: 50 m}
  b: {from: d, to: q, size: 1 in SIDR 15, length: 60 m}
)");
  CHECK(problem_of<solver::NotJoined>(farm, "c..q").to == "q");
  // Without any summit the longest pipe is the one to look at.
  CHECK(pipes_of(farm, profile_of(farm, "")) == "+b");
}

TEST_CASE("of many equal ways the first few are listed, however many there are") {
  std::string text = "farm: doubled\ncreeks: {c: {surface: 100 m}}\nponds: {p: {surface: 10 m}}\n";
  std::string tees = "tees: {";
  std::string pipes = "pipes:\n";
  constexpr int steps = 40;  // 2^40 ways
  for (int i = 0; i < steps; ++i) {
    const std::string from = i == 0 ? "c" : "t" + std::to_string(i);
    const std::string to = i + 1 == steps ? "p" : "t" + std::to_string(i + 1);
    tees += i + 1 == steps ? "" : (i == 0 ? "" : ", ") + to + ": " + std::to_string(90 - i) + " m";
    for (const char* const side : {"l", "r"}) {
      pipes += "  " + (side + std::to_string(i)) + ": {from: " + from + ", to: " + to +
               ", size: 1 in SIDR 15, length: 50 m}\n";
    }
  }
  const auto problem =
      problem_of<solver::SeveralRoutes>(farm_of(text + tees + "}\n" + pipes), "c..p");
  CHECK(problem.routes.size() == 6);
  CHECK(problem.has_more);
}

TEST_CASE("without a choice the pipe whose summit has the least margin is shown") {
  const model::Farm farm = farm_of(R"(
farm: two humps
creeks: {c: {surface: 100 m}}
ponds: {p: {surface: 90 m}, q: {surface: 90 m}}
pipes:
  low: {from: c, to: p, size: 1 in SIDR 15, path: [[0 m, 99 m], [60 m, 101 m], [500 m, 89 m]]}
  high: {from: c, to: q, size: 1 in SIDR 15, path: [[0 m, 99 m], [60 m, 103 m], [100 m, 89 m]]}
)");
  CHECK(pipes_of(farm, profile_of(farm, "")) == "+high");
}

TEST_CASE("heads along a siphon agree with the grade line worked by hand") {
  const model::Farm farm = farm_of(siphon);
  const Profile profile = profile_of(farm, "a");
  REQUIRE(profile.answer.pipes[0].flow_m3_s > 0.0);
  // From the pond's end: the exit loss is one velocity head, so the head inside the pipe's end is
  // the pond's 90 m and one velocity head. Friction lies evenly on the length: legs of
  // hypot(60, 4) and hypot(40, 14) m. Entrance K 0.5, fitting K 20 half way up the first leg.
  const double velocity_head_m = hydraulics::velocity_head_m(in_metres(farm.pipes[0].size.bore),
                                                             profile.answer.pipes[0].flow_m3_s);
  const double rise_m = std::hypot(60.0, 4.0);
  const double fall_m = std::hypot(40.0, 14.0);
  const double friction_m = 10.0 - (0.5 + 20.0 + 1.0) * velocity_head_m;
  const double summit_head_m = 90.0 + velocity_head_m + friction_m * fall_m / (rise_m + fall_m);
  const ProfilePoint& summit = marked(profile, ProfileMark::Summit);
  CHECK(summit.distance_m == Approx(60.0));
  CHECK(summit.elevation_m == Approx(103.0));
  CHECK(*summit.running_head_m == Approx(summit_head_m).epsilon(1e-5));
  CHECK(*summit.static_head_m == Approx(100.0));
  // Absolute: the standard atmosphere at sea level, 101 325 Pa, over the weight of water at 15 C,
  // 999.1 kg/m3 x 9.80665 m/s2.
  const double air_m = 101325.0 / (999.1 * 9.80665);
  CHECK(*summit.absolute_head_m ==
        Approx(air_m + summit_head_m - velocity_head_m - 103.0).epsilon(1e-4));
  CHECK(*summit.absolute_head_m ==
        Approx(*profile.summits.front().summit.absolute_head_m).epsilon(1e-9));
  // The fitting's two sides stand 20 velocity heads apart.
  const ProfilePoint& fitting = marked(profile, ProfileMark::Fitting);
  CHECK(fitting.distance_m == Approx(30.0));
  CHECK(*fitting.running_head_m - *last_at(profile, 30.0).running_head_m ==
        Approx(20.0 * velocity_head_m));
  CHECK(count_of(profile, ProfileMark::Bleed) == 1);
  CHECK(marked(profile, ProfileMark::Bleed).distance_m == Approx(60.0));
}

TEST_CASE("at the head of an upright riser the summit is marked, not its foot") {
  const model::Farm farm = farm_of(R"(
farm: riser
creeks: {c: {surface: 100 m}}
ponds: {p: {surface: 90 m}}
pipes:
  a: {from: c, to: p, size: 1 in SIDR 15, path: [[0 m, 98 m], [0 m, 102 m], [0 m, 89 m]]}
)");
  const Profile profile = profile_of(farm, "a");
  CHECK(marked(profile, ProfileMark::Summit).elevation_m == Approx(102.0));
  CHECK(marked(profile, ProfileMark::Bleed).elevation_m == Approx(102.0));
  CHECK(profile.summits.at(0).is_high_point);
  CHECK(profile.points.back().distance_m == 0.0);
}

TEST_CASE("a run walked backwards shows the same water, distances counted from its other end") {
  const model::Farm farm = farm_of(siphon);
  const Profile there = profile_of(farm, "c..p");
  const Profile back = profile_of(farm, "p..c");
  const ProfilePoint& summit = marked(back, ProfileMark::Summit);
  CHECK(summit.distance_m == Approx(40.0));
  CHECK(*summit.running_head_m ==
        Approx(*marked(there, ProfileMark::Summit).running_head_m).epsilon(1e-6));
  CHECK(back.summits.front().distance_m == Approx(40.0));
  CHECK(back.points.front().mark == ProfileMark::Start);
  CHECK(back.points.front().name == "p");
  CHECK(back.points.back().name == "c");
  for (std::size_t i = 1; i < back.points.size(); ++i) {
    CHECK(back.points[i].distance_m >= back.points[i - 1].distance_m);
    CHECK(back.points[i].along_m >= back.points[i - 1].along_m - 1e-9);
  }
}

TEST_CASE("over several pipes distances add up and the tees between them are marked") {
  const model::Farm farm = farm_of(ring);
  const Profile profile = profile_of(farm, "left..p");
  CHECK(profile.points.back().distance_m == Approx(70.0 + 90.0));
  const ProfilePoint& joint = marked(profile, ProfileMark::Joint);
  CHECK(joint.name == "far");
  CHECK(joint.distance_m == Approx(70.0));
  CHECK(count_of(profile, ProfileMark::Joint) == 1);
  CHECK(count_of(profile, ProfileMark::Start) == 1);
  CHECK(count_of(profile, ProfileMark::End) == 1);
}

TEST_CASE("a tee that stands above both its pipes is a place to bleed, under a vent nothing is") {
  const model::Farm farm = farm_of(R"(
farm: high tee
creeks: {c: {surface: 100 m}}
tees: {top: 95 m}
ponds: {p: {surface: 80 m}}
pipes:
  a: {from: c, to: top, size: 1 in SIDR 15, path: [[0 m, 98 m], [40 m, 85 m], [90 m, 95 m]]}
  b: {from: top, to: p, size: 1 in SIDR 15, vents: [{at: 50 m, top: 105 m}],
      path: [[0 m, 95 m], [20 m, 84 m], [50 m, 88 m], [90 m, 79 m]]}
)");
  const Profile profile = profile_of(farm, "c..p");
  CHECK(count_of(profile, ProfileMark::Bleed) == 1);
  CHECK(marked(profile, ProfileMark::Bleed).distance_m == Approx(90.0));
  CHECK(marked(profile, ProfileMark::Vent).distance_m == Approx(140.0));
}

TEST_CASE("below a parted summit the reach without full water ends where the grade line says") {
  const model::Farm farm = farm_of(R"(
farm: knob
creeks: {c: {surface: 100 m}}
ponds: {p: {surface: 70 m}}
pipes:
  a: {from: c, to: p, size: 1 in SIDR 15, path: [[0 m, 99.9 m], [100 m, 104 m], [200 m, 69 m]]}
)");
  const Profile profile = profile_of(farm, "a");
  REQUIRE(profile.answer.pipes[0].summits.front().parted);
  REQUIRE(profile.reaches.size() == 1);
  const solver::PartFullReach& reach = profile.reaches.front();
  CHECK(reach.running);
  CHECK(reach.under_vapour);
  CHECK(reach.full_again);
  CHECK(reach.from_m == Approx(100.0));
  // Full again where the full leg, from the pond's 70 m and one velocity head up along its even
  // friction, has the vapour's pressure: by hand from the flow, with the law of friction alone.
  const double bore_m = in_metres(farm.pipes[0].size.bore);
  const double flow = profile.answer.pipes[0].flow_m3_s;
  const double velocity_head_m = hydraulics::velocity_head_m(bore_m, flow);
  const hydraulics::Water water = hydraulics::water_at(celsius(15.0));
  const double leg_m = std::hypot(100.0, 35.0);
  const hydraulics::FrictionLaw friction =
      hydraulics::darcy_weisbach(bore_m, 1.0, 1.5e-6, water.kinematic_viscosity_m2_s);
  const double per_metre = hydraulics::friction_loss(friction, flow).loss_m;
  const double weight = water.density_kg_m3 * gravity_m_s2;
  const double vapour_m = (water.vapour_pressure_Pa - 101325.0) / weight;
  // At s m of pipe above the end: 70 + s per_metre (the velocity head cancels) = level + vapour.
  const double s = (70.0 - 69.0 - vapour_m) / (35.0 / leg_m - per_metre);
  CHECK(reach.length_m == Approx(leg_m - s).epsilon(2e-3));
  const ProfilePoint& again = marked(profile, ProfileMark::FullAgain);
  CHECK(again.distance_m == Approx(reach.to_m));
  CHECK(*again.running_head_m == Approx(again.elevation_m + vapour_m).epsilon(1e-4));
  CHECK(reach.length_m == Approx(profile.answer.pipes[0].part_full_m).epsilon(1e-6));
  CHECK(velocity_head_m > 0.0);
}

TEST_CASE("a line that draws air has its surface at the pipe's own level") {
  const model::Farm farm = farm_of(R"(
farm: airy
springs: {s: {overflow: 100 m, intake: 99.5 m, yield: 5 L/min}}
ponds: {p: {surface: 70 m}}
pipes:
  a: {from: s, to: p, size: 1 in SIDR 15, path: [[0 m, 99.5 m], [100 m, 97 m], [225 m, 69 m]]}
)");
  const Profile profile = profile_of(farm, "a");
  REQUIRE(profile.reaches.size() == 1);
  CHECK_FALSE(profile.reaches[0].under_vapour);
  CHECK(profile.reaches[0].full_again);
  const ProfilePoint& knee = marked(profile, ProfileMark::Knee);
  CHECK(*knee.running_head_m == Approx(97.0));
  CHECK(*knee.pressure_Pa == Approx(0.0).margin(1e-9));
}

TEST_CASE("the rating is shown only where standing water takes more than two thirds of it") {
  // 1 in SIDR 15 of the lowest grade: 78.1 psi is 538 kPa, 54.9 m of water at 15 C; over 1.5, 36.6.
  const auto leg_of = [](const std::string& pond) {
    const model::Farm farm =
        farm_of("farm: dip\ncreeks: {c: {surface: 100 m}}\nponds: {p: {surface: " + pond +
                "}}\npipes: {a: {from: c, to: p, size: 1 in SIDR 15, "
                "length: 400 m}}\n");
    return solver::profile_of(farm, "a", {}).legs.at(0).rating_head_m;
  };
  CHECK_FALSE(leg_of("65 m"));
  REQUIRE(leg_of("62 m"));
  CHECK(*leg_of("62 m") == Approx(78.1 * 6894.757 / (999.1 * 9.80665)).epsilon(1e-3));
}

TEST_CASE("a shut valve, a one-way and a dry end keep their points, without heads") {
  const model::Farm farm = farm_of(R"(
farm: shut
creeks: {c: {surface: 100 m}}
tees: {t: 90 m}
troughs: {a: {float: 80 m, need: 1 L/min}}
pipes:
  up: {from: c, to: t, size: 1 in SIDR 15, path: [[0 m, 99 m], [40 m, 95 m], [80 m, 90 m]],
       valve: {type: gate, shut: yes, at: 40 m}}
  down: {from: t, to: a, size: 1 in SIDR 15, length: 60 m}
)");
  const Profile profile = profile_of(farm, "c..a");
  CHECK(*profile.points.front().running_head_m == Approx(100.0));
  CHECK(marked(profile, ProfileMark::Valve).name.empty());  // the farm's own says what it is
  CHECK_FALSE(profile.points.back().running_head_m);
  CHECK_FALSE(profile.points.back().static_head_m);
  CHECK(profile.points.back().elevation_m == Approx(80.0));
}

TEST_CASE("in the static case running and standing water are one") {
  const model::Farm farm = farm_of(ring);
  solver::SteadyOptions options;
  options.load_case = solver::LoadCase::Static;
  const Profile profile = solver::profile_of(farm, "left..p", options);
  REQUIRE_FALSE(profile.points.empty());
  for (const ProfilePoint& point : profile.points) {
    CHECK(*point.running_head_m == Approx(*point.static_head_m));
    CHECK(*point.static_head_m == Approx(100.0));
  }
}

}  // namespace leat::tests
