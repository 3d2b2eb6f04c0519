// Every file of tests/broken-farms against its full expected text. LEAT_REFRESH=1 rewrites those
// texts: read the difference before keeping it.
#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "model/keys/farm_file.h"
#include "render/words/diagnostic_text.h"
#include "tests/support/farm_problems.h"

namespace {

namespace fs = std::filesystem;

const fs::path repository = LEAT_SOURCE_DIR;
const fs::path broken_farms = repository / "tests/broken-farms";

std::string text_of(const fs::path& path) {
  std::ifstream stream(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

/// Goes to a folder, so that messages hold bare file names, and back again.
class InFolder {
 public:
  explicit InFolder(const fs::path& folder) : before_(fs::current_path()) {
    fs::current_path(folder);
  }
  ~InFolder() { fs::current_path(before_); }
  InFolder(const InFolder&) = delete;
  InFolder& operator=(const InFolder&) = delete;

 private:
  fs::path before_;
};

std::vector<std::string> farm_names() {
  std::vector<std::string> names;
  for (const fs::directory_entry& entry : fs::directory_iterator(broken_farms)) {
    if (entry.path().extension() == ".yaml") {
      names.push_back(entry.path().stem().string());
    }
  }
  std::sort(names.begin(), names.end());
  return names;
}

/// The codes listed in FORMAT.md: table rows that start with "| `code` |".
std::set<std::string> documented_codes() {
  std::set<std::string> codes;
  const std::string page = text_of(repository / "model/FORMAT.md");
  const std::string start = "\n| `";
  for (std::size_t at = page.find(start, page.find("## Problems")); at != std::string::npos;
       at = page.find(start, at + 1)) {
    const std::size_t first = at + start.size();
    codes.insert(page.substr(first, page.find('`', first) - first));
  }
  return codes;
}

}  // namespace

TEST_CASE("A broken farm is told in full: place, sentence, line, caret and hint", "[golden]") {
  const InFolder here(broken_farms);
  const std::vector<std::string> names = farm_names();
  REQUIRE(names.size() >= 150);
  const bool refresh = std::getenv("LEAT_REFRESH") != nullptr;
  for (const std::string& name : names) {
    CAPTURE(name);
    const leat::model::LoadedFarm loaded = leat::model::load_farm_file(name + ".yaml");
    CHECK_FALSE(loaded.farm.has_value());
    CHECK(leat::tests::has_error(loaded.problems));
    const std::string told = leat::render::problems_text(loaded);
    if (refresh) {
      std::ofstream(name + ".expected", std::ios::binary) << told;
    }
    CHECK(told == text_of(name + ".expected"));
  }
}

TEST_CASE("Each expected text belongs to a broken farm", "[golden]") {
  for (const fs::directory_entry& entry : fs::directory_iterator(broken_farms)) {
    if (entry.path().extension() == ".expected") {
      CAPTURE(entry.path().string());
      CHECK(fs::exists(fs::path(entry.path()).replace_extension(".yaml")));
    }
  }
}

TEST_CASE("FORMAT.md lists every code a broken farm brings out, and no code nothing brings out") {
  const InFolder here(broken_farms);
  std::set<std::string> met = {"too-large"};  // a file of 32 MB is no test file
  for (const std::string& name : farm_names()) {
    for (const leat::model::Diagnostic& problem :
         leat::model::load_farm_file(name + ".yaml").problems) {
      met.insert(problem.code);
    }
  }
  CHECK(met == documented_codes());
}
