// What stands at the points of a profile, in words.
#include "render/words/profile_words.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::render {
namespace {

/// The words of the first point with that mark.
std::string words_at(const std::string& text, solver::ProfileMark mark) {
  const model::Farm farm = tests::farm_of(text);
  const solver::Profile profile = solver::profile_of(farm, "", {});
  REQUIRE(profile.is_made());
  const auto found = std::find_if(
      profile.points.begin(), profile.points.end(), [mark](const solver::ProfilePoint& point) {
        return point.mark == mark;
      });
  REQUIRE(found != profile.points.end());
  return mark_words(farm, *found);
}

std::string with_valve(const std::string& valve) {
  return "farm: shut\ncreeks: {c: {surface: 100 m}}\nponds: {p: {surface: 80 m}}\n"
         "pipes: {a: {from: c, to: p, size: 1 in SIDR 15, length: 60 m, valve: {type: " +
         valve + ", at: 40 m}}}\n";
}

}  // namespace

TEST_CASE("a valve is told with what it is set to") {
  using solver::ProfileMark;
  CHECK(words_at(with_valve("gate, shut: yes"), ProfileMark::Valve) == "gate valve, shut");
  CHECK(words_at(with_valve("ball, open: 1/2"), ProfileMark::Valve) == "ball valve, part open");
  CHECK(words_at(with_valve("gate, open: 100 %"), ProfileMark::Valve) == "gate valve");
}

TEST_CASE("a summit to which the pipe does not come up is a knee") {
  CHECK(words_at(R"(
farm: airy
springs: {s: {overflow: 100 m, intake: 99.5 m, yield: 5 L/min}}
ponds: {p: {surface: 70 m}}
pipes:
  a: {from: s, to: p, size: 1 in SIDR 15, path: [[0 m, 99.5 m], [100 m, 97 m], [225 m, 69 m]]}
)",
                 solver::ProfileMark::Knee) == "knee");
}

}  // namespace leat::render
