// What the demo farms promise in their first lines, held against what the water does.
#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "model/keys/farm_file.h"
#include "solver/steady/steady.h"

namespace leat::solver {

namespace {

std::string demo_text(const std::string& name) {
  std::ifstream stream(std::string(LEAT_SOURCE_DIR) + "/networks-demo/" + name + ".yaml",
                       std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

/// A text with one piece exchanged; the piece must be there.
std::string exchanged(std::string text, const std::string& piece, const std::string& other) {
  const std::size_t at = text.rfind(piece);
  CAPTURE(piece);
  REQUIRE(at != std::string::npos);
  return text.replace(at, piece.size(), other);
}

/// A farm and what the water does on it.
struct Solved {
  model::Farm farm;
  SteadyAnswer answer;

  const PlaceAnswer& place(const std::string& name) const {
    for (std::size_t i = 0; i < farm.places.size(); ++i) {
      if (farm.places[i].name == name) {
        return answer.places[i];
      }
    }
    FAIL("no place is named " << name);
    return answer.places.front();
  }
  const PipeAnswer& pipe(const std::string& name) const {
    for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
      if (farm.pipes[i].name == name) {
        return answer.pipes[i];
      }
    }
    FAIL("no pipe is named " << name);
    return answer.pipes.front();
  }
  /// "code where" of every caution and danger.
  std::vector<std::string> amiss() const {
    std::vector<std::string> found;
    for (const Finding& flag : answer.flags) {
      if (flag.severity != Severity::Note) {
        found.push_back(std::string(word_of(flag.code)) + " " + flag.where);
      }
    }
    return found;
  }
  std::ptrdiff_t flag_count(Code code) const {
    return std::count_if(answer.flags.begin(), answer.flags.end(), [&](const Finding& one) {
      return one.code == code;
    });
  }
  const Finding& flag(Code code) const {
    const auto found = std::find_if(answer.flags.begin(),
                                    answer.flags.end(),
                                    [&](const Finding& one) { return one.code == code; });
    INFO("a flag " << word_of(code));
    REQUIRE(found != answer.flags.end());
    return *found;
  }
};

/// What a finding tells, which must be of that kind.
template <class Kind>
Kind detail(const Finding& finding) {
  return std::get<Kind>(finding.detail);
}

Solved solved(const std::string& text, const SteadyOptions& options = {}) {
  const model::LoadedFarm loaded = model::load_farm(text, "demo.yaml");
  for (const model::Diagnostic& problem : loaded.problems) {
    UNSCOPED_INFO(problem.text);
  }
  REQUIRE(loaded.problems.empty());
  REQUIRE(loaded.farm.has_value());
  SteadyAnswer answer = solve_steady(*loaded.farm, options);
  REQUIRE(answer.converged);
  return {*loaded.farm, std::move(answer)};
}

SteadyOptions in_month(const char* name) {
  SteadyOptions options;
  for (std::size_t i = 0; i < 12; ++i) {
    const auto month = static_cast<model::Month>(i);
    if (model::name_of(month) == name) {
      options.month = month;
    }
  }
  REQUIRE(options.month.has_value());
  return options;
}

using Findings = std::vector<std::string>;

}  // namespace

TEST_CASE("01: the siphon holds over the rise, and throttling its end makes the rise safer") {
  const std::string text = demo_text("01-over-the-rise");
  const Solved open = solved(text);
  CHECK(open.amiss() == Findings{});
  CHECK(open.pipe("siphon").flow_m3_s > 0.5e-3);
  CHECK(open.pipe("siphon").state == PipeState::Suction);
  REQUIRE(open.pipe("siphon").summit.has_value());
  CHECK(open.pipe("siphon").summit->margin_m.value() > 2.5);
  const Solved throttled = solved(exchanged(text, "open: 7/8", "open: 1/8"));
  CHECK(throttled.amiss() == Findings{});
  CHECK(throttled.pipe("siphon").flow_m3_s < open.pipe("siphon").flow_m3_s);
  CHECK(throttled.pipe("siphon").summit->margin_m.value() >
        open.pipe("siphon").summit->margin_m.value());
}

TEST_CASE("02: the top trough is fed from December to July and starves in August") {
  const std::string text = demo_text("02-high-trough");
  for (const char* const month : {"Dec", "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul"}) {
    CAPTURE(month);
    const Solved fed = solved(text, in_month(month));
    CHECK(fed.amiss() == Findings{});
    CHECK(fed.place("bank spring").state == PlaceState::Spilling);
  }
  const Solved august = solved(text);
  CHECK(august.answer.month_chosen);
  CHECK(model::name_of(*august.answer.month) == "Aug");
  CHECK(august.amiss() == Findings{"starved top"});
  CHECK(august.place("top").state == PlaceState::Starved);
  CHECK(august.place("lane").met.value() == 1.0);
  CHECK(august.place("bottom").met.value() == 1.0);
}

TEST_CASE("02: both sentences about August are true") {
  const Solved august = solved(demo_text("02-high-trough"));
  const double gallon_a_minute = 3.785411784e-3 / 60.0;
  const double yield = 1.1 * gallon_a_minute;
  const auto why = std::get<SpringsShort>(detail<GoesShort>(august.flag(Code::Starved)).reason);
  CHECK(why.springs == std::vector<std::string>{"bank spring"});
  CHECK(why.yield_m3_s == Approx(yield));
  CHECK(detail<SpringDrawnDown>(august.flag(Code::DrawnDown)).taken_m3_s == Approx(yield));
  CHECK(august.place("bank spring").delivered_m3_s == Approx(-yield));
  // What the top trough gets is what the spring leaves once the other two are filled.
  CHECK(august.place("top").delivered_m3_s ==
        Approx(yield - august.place("lane").need_m3_s.value() -
               august.place("bottom").need_m3_s.value()));
}

TEST_CASE("03: the creek stands still while the spring runs well, and helps when it does not") {
  const std::string text = demo_text("03-ring-with-two-waters");
  const Solved spring = solved(text, in_month("Sep"));
  CHECK(spring.amiss() == Findings{});
  CHECK(spring.pipe("creek line").state == PipeState::Still);
  CHECK(std::abs(spring.place("alder pool").delivered_m3_s) < 1e-9);
  const Solved dry = solved(text);
  CHECK(model::name_of(*dry.answer.month) == "Feb");
  CHECK(dry.amiss() == Findings{});
  CHECK(dry.place("hill spring").delivered_m3_s == Approx(-11.0 / 60000.0));
  CHECK(dry.pipe("creek line").flow_m3_s > 1.0 / 60000.0);
  // Both sides of the ring bring water to its far end.
  CHECK(dry.pipe("far north").flow_m3_s > 0.0);
  CHECK(dry.pipe("far south").flow_m3_s > 0.0);
}

TEST_CASE("04: the tank keeps the dip within its rating, and without it the dip is over") {
  const std::string text = demo_text("04-deep-dip");
  const Solved with_tank = solved(text);
  CHECK(with_tank.amiss() == Findings{});
  // Its float lets in what the troughs take, so it settles at the float's depth of 4 ft.
  CHECK(with_tank.place("step tank").level_m.value() == Approx(254.0 * 0.3048).margin(1e-3));
  const std::size_t start = text.find("tanks:");
  const std::size_t end = text.find("tees:");
  REQUIRE(start < end);
  std::string without = text;
  without.erase(start, end - start);
  without = exchanged(without, "tees:\n", "tees:\n  step tank: 252 ft\n");
  without = exchanged(without, "[690 ft, 255 ft]", "[690 ft, 252 ft]");
  without = exchanged(without, "[0 ft, 250 ft]", "[0 ft, 252 ft]");
  const Findings amiss = solved(without).amiss();
  CHECK(std::count(amiss.begin(), amiss.end(), "over-rating dip line") == 1);
}

TEST_CASE("05: nothing is amiss in the tangle, and its parts do their work") {
  const Solved tangle = solved(demo_text("05-tangle"));
  CHECK(tangle.amiss() == Findings{});
  for (const char* const drinker : {"calves", "cows", "horses", "house tap"}) {
    CAPTURE(drinker);
    CHECK(tangle.place(drinker).met.value() == 1.0);
  }
  CHECK(tangle.place("knoll tank").level_m.value() == Approx(57.7).margin(1e-3));
  CHECK(tangle.pipe("cross valve").state == PipeState::Still);
  CHECK(tangle.pipe("drowned end").flow_m3_s > 0.0);
  CHECK(tangle.pipe("free end").flow_m3_s > 0.0);
  // The regulator stands 200 m down a barn line of 210 m that falls 14 m, and is set to 60 kPa:
  // the barn tee sees that, and the little that the last 10 m fall, less what they lose.
  CHECK(tangle.place("barn tee").pressure_Pa.value() > 60.0e3);
  CHECK(tangle.place("barn tee").pressure_Pa.value() < 60.0e3 + 9806.65 * 14.0 * 10.0 / 210.0);
}

TEST_CASE("06: the siphon breaks when its box draws down, and holds once it is throttled") {
  const std::string text = demo_text("06-siphon-that-breaks");
  const Solved broken = solved(text);
  CHECK(broken.amiss() == Findings{"breaks seep"});
  CHECK(broken.place("seep").state == PlaceState::Breaks);
  CHECK(broken.pipe("gully siphon").flow_m3_s == 0.0);
  const Solved throttled = solved(text + "    valve: {type: gate, open: 1/8, at: end}\n");
  CHECK(throttled.amiss() == Findings{});
  CHECK(throttled.pipe("gully siphon").flow_m3_s > 8.0 / 60000.0);
  CHECK(throttled.pipe("gully siphon").flow_m3_s < 9.0 / 60000.0);
}

TEST_CASE("07: air stays behind the rises until they have standpipes") {
  const std::string text = demo_text("07-air-that-stays");
  const Solved locked = solved(text);
  CHECK(locked.amiss() == Findings{"air-stays meadow line"});
  // On paper some 10 L/min run; filled with nothing opened none would.
  CHECK(locked.pipe("meadow line").flow_m3_s == Approx(10.0 / 60000.0).epsilon(0.15));
  const TrappedAir::Lock lock = detail<TrappedAir>(locked.flag(Code::AirStays)).lock.value();
  CHECK(lock.lifted_m == Approx(1.7).margin(0.005));
  CHECK(lock.fall_m == Approx(0.9).margin(0.005));
  const Solved vented =
      solved(text + "    vents: [{at: 110 m, top: 40.3 m}, {at: 230 m, top: 40.3 m}]\n");
  CHECK(vented.amiss() == Findings{});
  CHECK(vented.pipe("meadow line").flow_m3_s ==
        Approx(locked.pipe("meadow line").flow_m3_s).epsilon(1e-3));
}

TEST_CASE("07: a wider pipe sweeps the air no better, since the slope is too small") {
  const std::string text = demo_text("07-air-that-stays");
  CHECK(solved(exchanged(text, "40 mm PE100", "63 mm PE100")).amiss() ==
        Findings{"air-stays meadow line"});
}

TEST_CASE(
    "08: nothing is amiss with either siphon, and the short one loses most by its foot valve") {
  const std::string text = demo_text("08-foot-valve-on-a-short-siphon");
  const Solved with = solved(text);
  CHECK(with.amiss() == Findings{});
  std::string bare = exchanged(text, ", {poppet foot valve: start}", "");
  bare = exchanged(bare, ", {poppet foot valve: start}", "");
  const Solved without = solved(bare);
  const auto lost = [&](const char* pipe) {
    return 1.0 - with.pipe(pipe).flow_m3_s / without.pipe(pipe).flow_m3_s;
  };
  CHECK(lost("short siphon") > 0.24);
  CHECK(lost("long siphon") < 0.10);
  // With a valve at the start instead, which the first lines of the file suggest, it flows freely.
  const std::string valve = "    valve: {type: ball, open: 100 %, at: start}\n";
  CHECK(solved(bare + valve).pipe("long siphon").flow_m3_s ==
        Approx(without.pipe("long siphon").flow_m3_s).epsilon(0.01));
}

TEST_CASE("09: the siphon gasses up on the saddle and holds at sea level") {
  const std::string text = demo_text("09-too-high-for-the-pass");
  CHECK(solved(text).amiss() == Findings{"near-vapour saddle siphon"});
  CHECK(solved(exchanged(text, "altitude: 2700 m", "altitude: 0 m")).amiss() == Findings{});
}

TEST_CASE("10: the dip is over its rating with the float shut, and a tank would cure it") {
  const std::string text = demo_text("10-dip-over-its-rating");
  const Solved farm = solved(text);
  CHECK(farm.amiss() == Findings{"over-rating dell line"});
  // From 341 ft to the dip at 60 ft: half way, 200.5 ft.
  const std::vector<double> tanks_m = detail<OverRating>(farm.flag(Code::OverRating)).tank_levels_m;
  REQUIRE(tanks_m.size() == 1);
  CHECK(tanks_m.front() / metres_per_foot == Approx(200.5).margin(0.05));
  CHECK(solved(exchanged(text, "100 psi", "160 psi")).amiss() == Findings{});
}

TEST_CASE("11: thin roll pipe is sucked flat on the rise, and heavier pipe is not") {
  const std::string text = demo_text("11-sucked-flat");
  CHECK(solved(text).amiss() == Findings{"collapse roll pipe"});
  const std::size_t from = text.rfind("{bore:");
  const std::size_t to = text.find('}', from) + 1;
  std::string heavier = text;
  heavier.replace(from, to - from, "50 mm PE80 SDR 13.6");
  CHECK(solved(heavier).amiss() == Findings{});
}

TEST_CASE("12: a quarter-turn valve slams the steel line, and a gate valve does not") {
  const std::string text = demo_text("12-slammed-valve");
  CHECK(solved(text).amiss() == Findings{"surge old steel line"});
  CHECK(solved(exchanged(text, "type: ball", "type: gate")).amiss() == Findings{});
}

TEST_CASE("13: the pond drains back in August, and is told of before that") {
  const std::string text = demo_text("13-pond-that-drains-back");
  const Solved august = solved(text);
  CHECK(model::name_of(*august.answer.month) == "Aug");
  CHECK(august.amiss() == Findings{"backwards pond line"});
  CHECK(august.pipe("pond line").flow_m3_s < -1.0 / 60000.0);
  const Solved march = solved(text, in_month("Mar"));
  CHECK(march.amiss() == Findings{"backwards pond line"});
  CHECK(march.pipe("pond line").flow_m3_s > 1.0 / 60000.0);
  const std::string held = exchanged(text, "ends: 29 m", "ends: 29 m, one-way: yes");
  CHECK(solved(held, in_month("Mar")).amiss() == Findings{});
}

TEST_CASE("14: water parts at the knee, though the pipe falls all the way") {
  const std::string text = demo_text("14-knee-before-the-bank");
  const Solved farm = solved(text);
  CHECK(farm.amiss() == Findings{"parted brow line"});
  // Told as 8.0 m lower, at 89.20 m or below: rounded up to the tenth.
  const auto parts = detail<SummitParts>(farm.answer.flags.front());
  CHECK(parts.summit.elevation_m == Approx(97.2));
  CHECK(parts.lowering_m.value() > 7.9);
  CHECK(parts.lowering_m.value() <= 8.0);
  const std::vector<model::PathPoint>& path = farm.farm.pipes.front().path;
  CHECK(std::is_sorted(path.begin(), path.end(), [](const auto& a, const auto& b) {
    return a.elevation > b.elevation;
  }));
  const std::string throttled = text + "    valve: {type: gate, open: 1/8, at: end}\n";
  CHECK(solved(throttled).flag_count(Code::Parted) == 0);
}

TEST_CASE("15: the starved float lets air in, and a one-way keeps it out") {
  const std::string text = demo_text("15-float-that-lets-air-in");
  const Solved farm = solved(text);
  CHECK(farm.amiss() == Findings{"air-in rigg tee", "dry high"});
  const std::string kept = exchanged(text, "length: 20 m}\n", "length: 20 m, one-way: yes}\n");
  const Solved held = solved(kept);
  CHECK(held.flag_count(Code::AirIn) == 0);
  CHECK(held.flag_count(Code::SuctionAtTee) == 1);
}

TEST_CASE("22: the bank trough is dry in August, and every place lies on the map") {
  const Solved farm = solved(demo_text("22-farm-on-the-map"));
  CHECK(farm.amiss() == Findings{"dry bank trough"});
  CHECK(std::all_of(farm.farm.places.begin(), farm.farm.places.end(), [](const auto& place) {
    return place.map.has_value();
  }));
  CHECK(farm.farm.site.map_origin.has_value());
}

}  // namespace leat::solver
