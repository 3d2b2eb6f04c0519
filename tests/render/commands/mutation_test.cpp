// Farms spoilt one place at a time, through the whole program. LEAT_MUTATIONS=1 takes every spoilt
// farm; a larger number takes one in that many.
#include <chrono>
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
#include "tests/render/temporary_folder.h"
#include "tests/support/farm_mutation.h"

namespace leat::render {

namespace {

namespace fs = std::filesystem;
using Json = nlohmann::json;

const fs::path repository = LEAT_SOURCE_DIR;

std::string text_of(const fs::path& path) {
  std::ifstream stream(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

void replace(std::string& text, const std::string& old, const std::string& put) {
  const std::size_t at = text.find(old);
  REQUIRE(at != std::string::npos);
  text.replace(at, old.size(), put);
}

/// every-key.yaml less what this version does not solve: its other keys reach the solver.
std::string every_solved_key() {
  std::string text = text_of(repository / "tests/farms/every-key.yaml");
  replace(text, "yield: yields.csv", "yield: 4 L/min");
  replace(text, "size: choose", "size: 1 in SIDR 15");
  return text;
}

struct Farm {
  std::string name;
  std::string text;
};

std::vector<Farm> farms() {
  std::vector<Farm> all = {{"every solved key", every_solved_key()}};
  for (const char* const folder : {"tests/farms", "networks-demo"}) {
    for (const fs::directory_entry& entry : fs::directory_iterator(repository / folder)) {
      if (entry.path().extension() == ".yaml") {
        all.push_back({entry.path().filename().string(), text_of(entry.path())});
      }
    }
  }
  return all;
}

std::size_t stride(std::size_t otherwise) {
  const char* const wish = std::getenv("LEAT_MUTATIONS");
  const long number = wish == nullptr ? 0 : std::strtol(wish, nullptr, 10);
  return number > 0 ? static_cast<std::size_t>(number) : otherwise;
}

struct Outcome {
  int status = 0;
  std::string out;
  std::string err;
  double seconds = 0.0;
};

Outcome run_words(const std::vector<std::string>& words) {
  std::ostringstream out;
  std::ostringstream err;
  const auto start = std::chrono::steady_clock::now();
  const int status = run(words, out, err, Terminal{});
  const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
  return {status, out.str(), err.str(), taken.count()};
}

/// Whether a problem has a line and column; with `line`, that line.
bool names_a_line(const Json& problems, std::size_t line = 0) {
  for (const Json& problem : problems) {
    if (problem["line"].is_number() && problem["column"].is_number() &&
        (line == 0 || problem["line"] == line)) {
      return true;
    }
  }
  return false;
}

/// What is wrong with how the program answered; empty where nothing is.
std::string fault_of(const Outcome& outcome, bool as_json, const test::FarmMutation& mutation) {
  if (outcome.status < 0 || outcome.status > 2) {
    return fmt::format("status {}: {}", outcome.status, outcome.err);
  }
  if (outcome.seconds > 5.0) {
    return fmt::format("took {:.1f} s", outcome.seconds);
  }
  if (!as_json) {
    return outcome.status == 2 && outcome.err.empty() ? "status 2 and not a word" : "";
  }
  const Json object = Json::parse(outcome.out, nullptr, false);
  if (object.is_discarded()) {
    return "no JSON: " + outcome.out.substr(0, 200);
  }
  if (outcome.status < 2) {
    const bool solve = object["command"] == "solve";
    return solve && object["converged"] != true ? "status says solved, converged does not" : "";
  }
  if (!object.contains("problems") || object["problems"].empty()) {
    return "status 2 without problems";
  }
  if (mutation.plain_slip && !object.contains("converged") &&
      !names_a_line(object["problems"], mutation.line)) {
    return "no problem names the spoilt line: " + outcome.err;
  }
  for (const Json& problem : object["problems"]) {
    // A part of the format that this version does not solve is told of before it is tried.
    if (object.contains("converged") && problem["code"] != "not-solved-yet") {
      return "an accepted farm is not solved: " + problem["text"].get<std::string>();
    }
  }
  return names_a_line(object["problems"]) ? "" : "no problem names a line: " + outcome.err;
}

bool refused(const Outcome& outcome) {
  return outcome.status == 2 && !outcome.out.empty() &&
         outcome.out.find("\"converged\"") == std::string::npos;
}

}  // namespace

TEST_CASE("A farm spoilt in any one place is solved, or refused with a line named") {
  const TemporaryFolder folder;
  for (const fs::directory_entry& entry : fs::directory_iterator(repository / "tests/farms")) {
    if (entry.path().extension() == ".csv") {
      folder.write(entry.path().filename().string(), text_of(entry.path()));
    }
  }
  // What variants are based on lies beside them.
  for (const fs::directory_entry& entry : fs::directory_iterator(repository / "networks-demo")) {
    if (entry.path().extension() == ".yaml") {
      folder.write(entry.path().filename().string(), text_of(entry.path()));
    }
  }
  const std::string file = folder.file("farm.yaml");
  const std::size_t step = stride(29);
  const std::vector<std::vector<std::string>> others = {
      {"solve", file, "--json", "--case", "wide"},
      {"solve", file, "--json", "--case", "static"},
      {"read", file, "--json"},
      {"solve", file},
      {"read", file}};
  std::size_t count = 0;
  std::size_t runs = 0;
  std::size_t solved = 0;
  for (const Farm& farm : farms()) {
    CAPTURE(farm.name);
    folder.write("farm.yaml", farm.text);
    REQUIRE(run_words({"read", file}).status == 0);
    for (const test::FarmEntry& entry : test::entries_of(farm.text)) {
      for (const test::FarmMutation& mutation : test::mutations_of(farm.text, entry)) {
        if (count++ % step != 0) {
          continue;
        }
        folder.write("farm.yaml", mutation.text);
        const auto judge = [&](const Outcome& outcome, bool as_json, const std::string& words) {
          ++runs;
          const std::string fault = fault_of(outcome, as_json, mutation);
          if (!fault.empty()) {
            FAIL_CHECK(fmt::format(
                "{}:{}: {}: {}: {}", farm.name, mutation.line, mutation.what, words, fault));
          }
        };
        const Outcome first = run_words({"solve", file, "--json"});
        judge(first, true, "solve --json");
        if (refused(first)) {
          judge(run_words({"solve", file}), false, "solve");
          continue;
        }
        ++solved;
        for (const std::vector<std::string>& words : others) {
          judge(run_words(words), words.size() > 2, fmt::format("{} {}", words[0], words.back()));
        }
      }
    }
  }
  CHECK(count > 10000);
  CHECK(solved > 500 / step);
  WARN(fmt::format(
      "{} spoilt farms, one in {} run: {} runs, {} accepted", count, step, runs, solved));
}

}  // namespace leat::render
