// The demo farms against the outputs kept in tests/golden. Those files say "as before", not
// "right": tests/README.md. LEAT_REFRESH=1 writes them anew.
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "render/cli/run.h"
#include "tests/render/run_words.h"
#include "tests/render/temporary_folder.h"

namespace leat::render {

namespace {

using Json = nlohmann::ordered_json;

// A drawing carries its day; any fixed one will do.
constexpr const char* a_fixed_day = "1786665600";
// Figures may differ in their last digits from one compiler to the next.
constexpr double relative_tolerance = 1e-6;
constexpr double absolute_tolerance = 1e-9;
// How many steps Newton takes may differ by a few for the same reason; the laws' tests hold the
// mean.
constexpr double iteration_tolerance = 3.0;

std::string content_of(const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

std::vector<std::filesystem::path> demo_farms() {
  std::vector<std::filesystem::path> farms;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::string(LEAT_SOURCE_DIR) + "/networks-demo")) {
    // A farm with sizes left to choose has no answer to keep: size_command_test runs it.
    if (entry.path().extension() == ".yaml" &&
        content_of(entry.path()).find("size: choose") == std::string::npos) {
      farms.push_back(entry.path());
    }
  }
  std::sort(farms.begin(), farms.end());
  return farms;
}

bool asks_for_refresh() {
  return std::getenv("LEAT_REFRESH") != nullptr;
}

/// The output kept under that ending; where a refresh is asked for, `now` is kept first.
std::string kept_output(const std::filesystem::path& farm,
                        const std::string& ending,
                        const std::string& now) {
  const std::filesystem::path file =
      std::filesystem::path(LEAT_SOURCE_DIR) / "tests" / "golden" / (farm.stem().string() + ending);
  if (asks_for_refresh()) {
    std::ofstream(file, std::ios::binary) << now;
  }
  INFO("kept in " << file);
  REQUIRE(std::filesystem::exists(file));
  return content_of(file);
}

std::string difference(const Json& kept, const Json& now, const std::string& where);

std::string difference_of_objects(const Json& kept, const Json& now, const std::string& where) {
  if (kept.size() != now.size()) {
    return fmt::format("{}: {} keys, {} before", where, now.size(), kept.size());
  }
  for (auto before = kept.begin(), after = now.begin(); before != kept.end(); ++before, ++after) {
    if (before.key() != after.key()) {
      return fmt::format("{}: key {} where {} was", where, after.key(), before.key());
    }
    const std::string found = difference(before.value(), after.value(), where + "/" + before.key());
    if (!found.empty()) {
      return found;
    }
  }
  return "";
}

std::string difference_of_lists(const Json& kept, const Json& now, const std::string& where) {
  if (kept.size() != now.size()) {
    return fmt::format("{}: {} entries, {} before", where, now.size(), kept.size());
  }
  for (std::size_t i = 0; i < kept.size(); ++i) {
    const std::string found = difference(kept[i], now[i], fmt::format("{}/{}", where, i));
    if (!found.empty()) {
      return found;
    }
  }
  return "";
}

std::string difference_of_numbers(double kept, double now, const std::string& where) {
  const double largest = std::max(std::abs(kept), std::abs(now));
  const double allowed = where == "/iterations" ? iteration_tolerance
                                                : relative_tolerance * largest + absolute_tolerance;
  return std::abs(kept - now) <= allowed ? "" : fmt::format("{}: {}, {} before", where, now, kept);
}

/// Where two answers differ first, in words; empty where they agree. Keys, their order and all
/// texts must be the same, numbers within the tolerance.
std::string difference(const Json& kept, const Json& now, const std::string& where) {
  if (kept.is_number() && now.is_number()) {
    return difference_of_numbers(kept.get<double>(), now.get<double>(), where);
  }
  if (kept.type() == now.type() && kept.is_object()) {
    return difference_of_objects(kept, now, where);
  }
  if (kept.type() == now.type() && kept.is_array()) {
    return difference_of_lists(kept, now, where);
  }
  return kept == now ? "" : fmt::format("{}: {}, {} before", where, now.dump(), kept.dump());
}

void check_text_as_before(const std::filesystem::path& farm,
                          const std::string& ending,
                          const std::string& command) {
  const Outcome now = run_words({command, farm.string()});
  CAPTURE(farm.string(), ending);
  CHECK(now.err.empty());
  CHECK((now.status == 0 || now.status == 1));
  CHECK(kept_output(farm, ending, now.out) == now.out);
}

/// Sets the day a drawing carries while it lives.
class FixedDay {
 public:
  FixedDay() { setenv("SOURCE_DATE_EPOCH", a_fixed_day, 1); }
  ~FixedDay() { unsetenv("SOURCE_DATE_EPOCH"); }
  FixedDay(const FixedDay&) = delete;
  FixedDay& operator=(const FixedDay&) = delete;
};

}  // namespace

TEST_CASE("the demo farms are a tour of at least six", "[golden]") {
  const std::vector<std::filesystem::path> farms = demo_farms();
  CHECK(farms.size() >= 6);
  for (std::size_t i = 0; i < farms.size(); ++i) {
    CAPTURE(farms[i].string());
    // Numbers rise; a farm that `solve` refuses (a size to choose) has one too and is not here.
    const std::string number = farms[i].filename().string().substr(0, 3);
    CHECK(number >= fmt::format("{:02d}-", i + 1));
    CHECK((i == 0 || number > farms[i - 1].filename().string().substr(0, 3)));
    CHECK(content_of(farms[i]).substr(0, 2) == "# ");
  }
}

TEST_CASE("every demo farm's tables read as before", "[golden]") {
  for (const std::filesystem::path& farm : demo_farms()) {
    check_text_as_before(farm, ".txt", "solve");
    check_text_as_before(farm, ".profile.txt", "profile");
  }
}

TEST_CASE("every demo farm's priming sheet reads as before", "[golden]") {
  for (const std::filesystem::path& farm : demo_farms()) {
    if (farm.stem() == "13-pond-that-drains-back") {
      // Water runs up that line in its dry month: there is nothing to prime, and the sheet says so.
      const Outcome refused = run_words({"prime", farm.string()});
      CHECK(refused.status == 2);
      CHECK(refused.err.find("runs") != std::string::npos);
      continue;
    }
    check_text_as_before(farm, ".prime.txt", "prime");
  }
}

TEST_CASE("every demo farm's JSON has the same keys, texts and figures as before", "[golden]") {
  for (const std::filesystem::path& farm : demo_farms()) {
    CAPTURE(farm.string());
    const Outcome now = run_words({"solve", farm.string(), "--json"});
    CHECK(now.err.empty());
    const std::string kept = kept_output(farm, ".json", now.out);
    CHECK(difference(Json::parse(kept), Json::parse(now.out), "") == "");
  }
}

TEST_CASE("every demo farm's profile has the same keys, marks and figures as before", "[golden]") {
  for (const std::filesystem::path& farm : demo_farms()) {
    CAPTURE(farm.string());
    const Outcome now = run_words({"profile", farm.string(), "--json"});
    CHECK(now.err.empty());
    const std::string kept = kept_output(farm, ".profile.json", now.out);
    CHECK(difference(Json::parse(kept), Json::parse(now.out), "") == "");
  }
}

TEST_CASE("every demo farm's drawing says the same as before", "[golden]") {
  const FixedDay day;
  for (const std::filesystem::path& farm : demo_farms()) {
    CAPTURE(farm.string());
    const TemporaryFolder folder;
    const Outcome now = run_words({"draw", farm.string(), "-o", folder.file("farm.dot")});
    CHECK((now.status == 0 || now.status == 1));
    const std::string drawn = folder.content("farm.dot");
    REQUIRE_FALSE(drawn.empty());
    CHECK(kept_output(farm, ".dot", drawn) == drawn);
  }
}

TEST_CASE("no output is kept of a farm that is gone", "[golden]") {
  std::vector<std::string> stems;
  for (const std::filesystem::path& farm : demo_farms()) {
    stems.push_back(farm.stem().string());
  }
  for (const auto& entry :
       std::filesystem::directory_iterator(std::string(LEAT_SOURCE_DIR) + "/tests/golden")) {
    const std::string name = entry.path().filename().string();
    CAPTURE(name);
    CHECK(std::count(stems.begin(), stems.end(), name.substr(0, name.find('.'))) == 1);
  }
}

TEST_CASE("the comparison of kept answers sees what differs", "[golden]") {
  const Json kept = Json::parse(R"({"a": 1.0, "b": ["x", null, true], "iterations": 9})");
  const auto found = [&kept](const char* now) { return difference(kept, Json::parse(now), ""); };
  CHECK(found(R"({"a": 1.0000000001, "b": ["x", null, true], "iterations": 10})").empty());
  CHECK(found(R"({"a": 1.0001, "b": ["x", null, true], "iterations": 9})") ==
        "/a: 1.0001, 1 before");
  CHECK_FALSE(found(R"({"a": 1.0, "b": ["y", null, true], "iterations": 9})").empty());
  CHECK_FALSE(found(R"({"a": 1.0, "b": ["x", 0.0, true], "iterations": 9})").empty());
  CHECK_FALSE(found(R"({"a": 1.0, "b": ["x", null], "iterations": 9})").empty());
  CHECK_FALSE(found(R"({"b": ["x", null, true], "a": 1.0, "iterations": 9})").empty());
  CHECK_FALSE(found(R"({"a": 1.0, "b": ["x", null, true], "iterations": 90})").empty());
}

}  // namespace leat::render
