// What `leat improve` prints: keys in order, a hundred columns, exit status of the farm as it is.
#include "render/commands/improve/improve_report.h"

#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "render/cli/run.h"
#include "render/document/text_table.h"

namespace leat::render {

namespace {

struct Printed {
  int code = 0;
  std::string out;
  std::string err;
};

Printed improved(const std::string& farm, const std::vector<std::string>& flags) {
  std::vector<std::string> arguments = {"improve",
                                        std::string(LEAT_SOURCE_DIR) + "/networks-demo/" + farm};
  arguments.insert(arguments.end(), flags.begin(), flags.end());
  std::ostringstream out;
  std::ostringstream err;
  const int code = run(arguments, out, err, Terminal{});
  return {code, out.str(), err.str()};
}

std::vector<std::string> keys_of(const nlohmann::ordered_json& object) {
  std::vector<std::string> keys;
  for (const auto& item : object.items()) {
    keys.push_back(item.key());
  }
  return keys;
}

using Keys = std::vector<std::string>;

}  // namespace

TEST_CASE("improve's JSON has the keys of the contract in their order") {
  const Printed printed = improved("02-high-trough.yaml", {"--json"});
  CHECK(printed.code == 1);
  const auto object = nlohmann::ordered_json::parse(printed.out);
  CHECK(keys_of(object) == Keys{"format", "command", "farm", "changes", "pair", "flags"});
  REQUIRE_FALSE(object["changes"].empty());
  int rank = 1;
  for (const auto& change : object["changes"]) {
    CHECK(keys_of(change) == Keys{"rank",
                                  "change",
                                  "where",
                                  "gain_L_s",
                                  "met_before",
                                  "met_after",
                                  "new_flags",
                                  "cost",
                                  "all_gain_L_s"});
    CHECK(change["rank"] == rank++);
    CHECK(change["cost"].is_null());
  }
}

TEST_CASE("improve names the valve to set, how far, and what each place then gets") {
  const Printed printed = improved("21-what-helps-the-ridge.yaml", {});
  CHECK(printed.out.find("Valves: set the gate valve on to pond ") != std::string::npos);
  CHECK(printed.out.find(" open: ridge then gets ") != std::string::npos);
}

TEST_CASE("improve's table fits a hundred columns, all changes and sensitivities with it") {
  for (const char* const farm :
       {"02-high-trough.yaml", "05-tangle.yaml", "21-what-helps-the-ridge.yaml"}) {
    std::istringstream lines(improved(farm, {"--sensitivities", "--verbose"}).out);
    for (std::string line; std::getline(lines, line);) {
      CAPTURE(line);
      CHECK(display_width(line) <= 100);
    }
  }
}

TEST_CASE("improve on a farm where nothing is amiss ends with 0 and says what it ranked by") {
  const Printed printed = improved("18-two-lines.yaml", {});
  CHECK(printed.code == 0);
  CHECK(printed.out.find("Nothing goes short: ranked by what ") != std::string::npos);
}

TEST_CASE("improve's table names the pipe of every change, where the figures leave it room") {
  const Printed printed = improved("21-what-helps-the-ridge.yaml", {});
  CHECK(printed.out.find("lay a second line beside creek line ") != std::string::npos);
  CHECK(printed.out.find("set the gate valve on to pond 5/16 open ") != std::string::npos);
}

TEST_CASE("improve leaves the needs out where all have theirs before and after") {
  const Printed printed = improved("04-deep-dip.yaml", {});
  CHECK(printed.out.find("100 % to 100 %") == std::string::npos);
  CHECK(printed.out.find("One change is enough") == std::string::npos);
  CHECK(printed.out.find("Best pair: ") != std::string::npos);
}

TEST_CASE("improve says what a change counts for that makes another trough go short") {
  const Printed printed = improved("02-high-trough.yaml", {});
  CHECK(printed.out.find("counts for no more than that one keeps") != std::string::npos);
  const Printed nobody = improved("21-what-helps-the-ridge.yaml", {});
  CHECK(nobody.out.find("counts for no more") == std::string::npos);
}

TEST_CASE("improve says what holds the water back where no change helps, and what else is amiss") {
  const Printed printed = improved("10-dip-over-its-rating.yaml", {});
  CHECK(printed.out.find("With every float wide open far side gets 4 gal/min; it needs ") !=
        std::string::npos);
  CHECK(printed.out.find("To help far side") == std::string::npos);
  CHECK(printed.out.find("Why: the line takes all that ") != std::string::npos);
  CHECK(printed.out.find("Also, the farm as it is has ") != std::string::npos);
}

TEST_CASE("improve tells cautions in plain words and every change in full that its table cut") {
  const Printed printed = improved("21-what-helps-the-ridge.yaml", {});
  CHECK(printed.out.find("more is taken out of rowan creek than it can spare") !=
        std::string::npos);
  CHECK(printed.out.find("spare exceeded") == std::string::npos);
  CHECK(printed.out.find("\n 6  Take the poppet foot valve out of creek line (") !=
        std::string::npos);
  CHECK(printed.out.find("(the best 12 listed; --verbose lists all)") != std::string::npos);
}

TEST_CASE("improve's CSV has a row a change under the JSON's keys") {
  const Printed printed = improved("21-what-helps-the-ridge.yaml", {"--csv"});
  CHECK(printed.out.rfind("rank,change,where,gain_L_s,met_before,met_after,new_flags,cost\n1,",
                          0) == 0);
}

TEST_CASE("improve refuses the static case and a place the farm does not have") {
  CHECK(improved("02-high-trough.yaml", {"--case", "static"}).code == 2);
  const Printed printed = improved("02-high-trough.yaml", {"--for", "tpo"});
  CHECK(printed.code == 2);
  CHECK(printed.err.find("no trough, outlet or pond is named 'tpo'") != std::string::npos);
}

}  // namespace leat::render
