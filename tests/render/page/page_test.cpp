#include <chrono>
#include <cstdlib>
#include <fstream>
#include <random>
#include <sstream>
#include <string>
#include <thread>
#include <vector>

#include <catch2/catch.hpp>
#include <httplib.h>
#include <nlohmann/json.hpp>

#include "model/catalogue/pipe_catalogue.h"
#include "render/cli/run.h"
#include "render/commands/try/page_server.h"
#include "render/page/page_request.h"
#include "tests/render/temporary_folder.h"

namespace leat::render {

namespace {

const std::string two_troughs =
    "farm: Two Troughs  # tried out\n"
    "springs:\n"
    "  top: {overflow: 30 m, yield: {Apr: 12 L/min, Aug: 6 L/min}}\n"
    "tees:\n"
    "  fork: 10 m  # by the oak\n"
    "troughs:\n"
    "  north: {float: 12 m, need: 2 L/min}\n"
    "  south: {float: 5 m, need: 2 L/min}\n"
    "pipes:\n"
    "  main:\n"
    "    from: top\n"
    "    to: fork\n"
    "    size: 25 mm PE100 SDR 11\n"
    "    length: 100 m\n"
    "    valve: {type: gate, open: 1, at: end}  # stiff\n"
    "  up: {from: fork, to: north, size: 25 mm PE100 SDR 11, length: 30 m}\n"
    "  down: {from: fork, to: south, size: 25 mm PE100 SDR 11, length: 30 m}\n";

void put(const std::string& path, const std::string& text) {
  std::ofstream(path, std::ios::binary) << text;
}

std::string read_text(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

/// A farm on the disk, tried out.
struct Tried {
  TemporaryFolder folder;
  std::string path = folder.file("two.yaml");
  FarmOnTrial farm = begun(path);

  static FarmOnTrial begun(const std::string& path) {
    put(path, two_troughs);
    return FarmOnTrial(path, model::load_farm_file(path));
  }
};

std::vector<model::TextEdit> shut_main() {
  return {{{"pipes", "main", "valve", "open"}, std::nullopt},
          {{"pipes", "main", "valve", "shut"}, "yes"}};
}

double delivered(const FarmOnTrial& farm, const std::string& name) {
  const auto answer = nlohmann::json::parse(page_answer(*farm.now(), {}));
  for (const auto& place : answer["places"]) {
    if (place["name"] == name) {
      return place["delivered_L_s"];
    }
  }
  return -1.0;
}

/// A server in a thread of its own.
class Served {
 public:
  explicit Served(FarmOnTrial& farm) : farm_(farm), server_(farm, std::nullopt) {
    REQUIRE(server_.bind());
    const std::string address = server_.address();
    base = address.substr(address.find('/', 8));
    thread_ = std::thread([this] { server_.serve(); });
  }
  ~Served() {
    farm_.release_waiting();
    server_.stop();
    thread_.join();
  }
  Served(const Served&) = delete;
  Served& operator=(const Served&) = delete;
  Served(Served&&) = delete;
  Served& operator=(Served&&) = delete;

  [[nodiscard]] httplib::Client client() const {
    httplib::Client client("127.0.0.1", server_.port());
    client.set_tcp_nodelay(true);
    client.set_keep_alive(true);
    return client;
  }
  [[nodiscard]] int port() const { return server_.port(); }

  std::string base;  // "/word/"

 private:
  FarmOnTrial& farm_;
  PageServer server_;
  std::thread thread_;
};

const char* const json_type = "application/json";

}  // namespace

TEST_CASE(
    "a valve shut on the page starves the troughs below it, and undo gives them water again") {
  Tried tried;
  CHECK(delivered(tried.farm, "north") > 0.03);
  CHECK(!tried.farm.change(shut_main(), EditRun::New));
  CHECK(delivered(tried.farm, "north") == 0.0);
  CHECK(tried.farm.now()->tried.source.find("# stiff") != std::string::npos);
  tried.farm.undo();
  CHECK(tried.farm.now()->tried.source == two_troughs);
  CHECK(read_text(tried.path) == two_troughs);
}

TEST_CASE("what a slider passes over is one step to undo") {
  Tried tried;
  const auto open = [&tried](const char* share, EditRun run) {
    return tried.farm.change({{{"pipes", "main", "valve", "open"}, share}}, run);
  };
  CHECK(!open("7/8", EditRun::New));
  CHECK(!open("1/2", EditRun::Continued));
  CHECK(!open("1/8", EditRun::Continued));
  CHECK(tried.farm.now()->undo_steps == 1);
  tried.farm.undo();
  CHECK(tried.farm.now()->tried.source == two_troughs);
}

TEST_CASE("a change the loader refuses is told with its line and leaves the water as it was") {
  Tried tried;
  const auto refusal =
      tried.farm.change({{{"pipes", "main", "valve", "open"}, "1/20"}}, EditRun::New);
  REQUIRE(refusal);
  CHECK(refusal->text.find("two.yaml:15:") != std::string::npos);
  CHECK(tried.farm.now()->version == 1);
  CHECK(tried.farm.change({{{"troughs", "north", "float"}, "12"}}, EditRun::New));
  CHECK(tried.farm.now()->tried.source == two_troughs);
}

TEST_CASE("no change of the page makes leat read another file") {
  Tried tried;
  CHECK(tried.farm.change({{{"based on"}, "../other.yaml"}}, EditRun::New));
  CHECK(tried.farm.change({{{"springs", "top", "yield"}, "../secret.csv"}}, EditRun::New));
  CHECK(tried.farm.change({}, EditRun::New));
}

TEST_CASE("a tried farm is saved whole to a new file beside the old one and nowhere else") {
  Tried tried;
  REQUIRE(!tried.farm.change(shut_main(), EditRun::New));
  CHECK(!tried.farm.save_as("shut.yaml"));
  CHECK(read_text(tried.folder.file("shut.yaml")) == tried.farm.now()->tried.source);
  CHECK(read_text(tried.path) == two_troughs);
  for (const char* const name : {"two.yaml",
                                 "shut.yaml",
                                 "",
                                 ".yaml",
                                 "../up.yaml",
                                 "a/b.yaml",
                                 "a\\b.yaml",
                                 ".hidden.yaml",
                                 "notes.txt",
                                 "line\nbreak.yaml"}) {
    CAPTURE(name);
    CHECK(tried.farm.save_as(name));
  }
  CHECK(read_text(tried.path) == two_troughs);
}

TEST_CASE("a file spoilt in an editor is told with its line and the last good water stays") {
  Tried tried;
  std::string spoilt = two_troughs;
  put(tried.path, spoilt.replace(spoilt.find("30 m"), 4, "30"));
  tried.farm.look_at_file();
  CHECK(tried.farm.now()->broken.find("two.yaml:3:19: error:") != std::string::npos);
  CHECK(delivered(tried.farm, "north") > 0.03);
  put(tried.path, two_troughs + "show: US\n");
  tried.farm.look_at_file();
  CHECK(tried.farm.now()->broken.empty());
  CHECK(tried.farm.now()->tried.farm->show == model::UnitSystem::Us);
}

TEST_CASE("changes of the page stand on top of a file changed in an editor while they fit it") {
  Tried tried;
  REQUIRE(!tried.farm.change(shut_main(), EditRun::New));
  std::string moved = two_troughs;
  put(tried.path, moved.replace(moved.find("30 m"), 4, "33 m"));
  tried.farm.look_at_file();
  CHECK(tried.farm.now()->tried.source.find("33 m") != std::string::npos);
  CHECK(tried.farm.now()->tried.source.find("shut: yes") != std::string::npos);
  tried.farm.undo();
  CHECK(tried.farm.now()->tried.source == moved);
  REQUIRE(!tried.farm.change(shut_main(), EditRun::New));
  const std::size_t valve = moved.find("    valve:");
  put(tried.path, moved.erase(valve, moved.find('\n', valve) + 1 - valve));
  tried.farm.look_at_file();
  CHECK(tried.farm.now()->tried.source == moved);
  CHECK(tried.farm.now()->notice.find("gone") != std::string::npos);
}

TEST_CASE("the page turns away strangers, oversized bodies and paths outside") {
  Tried tried;
  const Served served(tried.farm);
  httplib::Client client = served.client();
  const std::string edit = R"({"path": ["show"], "text": "US"})";
  const auto status = [](const httplib::Result& result) { return result ? result->status : 0; };

  CHECK(status(client.Get(served.base)) == 200);
  CHECK(status(client.Get(served.base + "state")) == 200);
  CHECK(status(client.Get("/")) == 404);
  CHECK(status(client.Get("/0123456789abcdef0123456789abcdef/state")) == 404);
  CHECK(status(client.Get(served.base + "../two.yaml")) == 404);
  CHECK(status(client.Get(served.base + "two.yaml")) == 404);
  CHECK(status(client.Get(served.base + "..%2f..%2fetc%2fpasswd")) == 404);
  for (const char* const host : {"farm.example", "127.0.0.1", "127.0.0.1:1", "localhost"}) {
    CAPTURE(host);
    CHECK(status(client.Get(served.base + "state", {{"Host", host}})) == 403);
    CHECK(status(client.Post(served.base + "edit", {{"Host", host}}, edit, json_type)) == 403);
  }
  for (const char* const origin : {"http://farm.example", "null", "http://127.0.0.1:1"}) {
    CAPTURE(origin);
    CHECK(status(client.Post(served.base + "edit", {{"Origin", origin}}, edit, json_type)) == 403);
  }
  const std::string own = "http://127.0.0.1:" + std::to_string(served.port());
  CHECK(status(client.Post(served.base + "edit", std::string(200'000, ' '), json_type)) == 413);
  for (const char* const body : {"",
                                 "[]",
                                 "{}",
                                 R"({"path": [], "text": "1"})",
                                 R"({"path": ["show"]})",
                                 R"({"path": "show", "text": "US"})",
                                 R"({"path": ["show"], "text": 3})",
                                 R"({"edits": []})",
                                 R"({"path": ["show"], "text": "US", "view": {"month": "Brr"}})",
                                 "{\"path\": [\"\xff\"], \"text\": \"US\"}"}) {
    CAPTURE(body);
    CHECK(status(client.Post(served.base + "edit", body, json_type)) == 400);
  }
  CHECK(status(client.Get(served.base + "wait?since=x")) == 400);
  for (const char* const name : {"../out.yaml", "/tmp/out.yaml", "two.txt"}) {
    CAPTURE(name);
    const std::string body = nlohmann::json{{"name", name}}.dump();
    CHECK(status(client.Post(served.base + "save", body, json_type)) == 403);
  }
  CHECK(status(client.Post(served.base + "save", R"({"name": "two.yaml"})", json_type)) == 409);
  CHECK(tried.farm.now()->version == 1);
  CHECK(status(client.Post(served.base + "edit", {{"Origin", own}}, edit, json_type)) == 200);
}

TEST_CASE("two pages see each other's valves") {
  Tried tried;
  const Served served(tried.farm);
  int seen = 0;
  std::thread other([&] {
    httplib::Client client = served.client();
    client.set_read_timeout(30, 0);
    const auto woken = client.Get(served.base + "wait?since=1");
    seen = woken ? nlohmann::json::parse(woken->body)["version"].get<int>() : -1;
  });
  httplib::Client client = served.client();
  const auto done = client.Post(served.base + "edit",
                                R"({"path": ["troughs", "north", "need"], "text": "9 L/min"})",
                                json_type);
  other.join();
  REQUIRE(done);
  CHECK(seen == 2);
  const auto state = nlohmann::json::parse(done->body);
  CHECK(state["version"] == 2);
  CHECK(state["changes"][0]["was"] == "2 L/min");
  CHECK(state["changes"][0]["now"] == "9 L/min");
  bool is_told = false;
  for (const auto& flag : state["flags"]) {
    is_told = is_told || (flag["where"] == "north" && flag["code"] == "starved" && flag["is_new"]);
  }
  CHECK(is_told);
}

namespace {

int edits_asked() {
  const char* const asked = std::getenv("LEAT_EDITS");
  return asked == nullptr ? 100 : std::atoi(asked);
}

/// Turns something at random, as a hand or a mistake would.
nlohmann::json random_edit(const nlohmann::json& state, std::mt19937& chance) {
  const auto below = [&chance](std::size_t count) { return chance() % count; };
  const auto& items = state["items"];
  for (;;) {
    const auto& controls = items[below(items.size())]["controls"];
    if (controls.empty()) {
      continue;
    }
    const auto& control = controls[below(controls.size())];
    const std::string input = control["input"];
    std::string text = control["text"];
    if (input == "valve") {
      auto open = control["path"];
      auto shut = control["path"];
      open.push_back("open");
      shut.push_back("shut");
      const std::string share = std::to_string(1 + below(8)) + "/8";
      return below(4) == 0 ? nlohmann::json{{"edits",
                                             {{{"path", open}, {"text", nullptr}},
                                              {{"path", shut}, {"text", "yes"}}}}}
                           : nlohmann::json{{"edits",
                                             {{{"path", shut}, {"text", nullptr}},
                                              {{"path", open}, {"text", share}}}}};
    }
    if (below(12) == 0) {
      static const std::vector<std::string> mistakes = {"",
                                                        "-",
                                                        "1e9 m",
                                                        "three",
                                                        "{a: b}",
                                                        "[",
                                                        "x # y",
                                                        "'",
                                                        "\"",
                                                        "\xC3\xBC",
                                                        "a: b",
                                                        "0 m",
                                                        "yes",
                                                        "&a",
                                                        "*a",
                                                        "!!int 3",
                                                        "\n",
                                                        "12 ft",
                                                        "5 gal/min"};
      text = mistakes[below(mistakes.size())];
    } else if (input == "size") {
      const auto& sizes = model::pipe_catalogue();
      text = sizes[below(sizes.size())].size.text;
    } else if (input == "choice") {
      text = control["words"][below(control["words"].size())];
    } else {
      const std::size_t unit = text.find_first_not_of("0123456789.");
      if (unit != 0 && !text.empty()) {
        const double factor = 0.5 + static_cast<double>(below(150)) / 100.0;
        std::ostringstream words;
        words << std::stod(text) * factor << (unit == std::string::npos ? "" : text.substr(unit));
        text = words.str();
      }
    }
    return {{"path", control["path"]}, {"text", text}};
  }
}

}  // namespace

TEST_CASE("after random changes the page shows what leat solve says of the same file") {
  const TemporaryFolder folder;
  const int edits = edits_asked();
  std::mt19937 chance(20);
  int kept = 0;
  for (const std::string name : {"02-high-trough", "06-siphon-that-breaks", "05-tangle"}) {
    const std::string source =
        read_text(std::string(LEAT_SOURCE_DIR) + "/networks-demo/" + name + ".yaml");
    const std::string path = folder.file(name + ".yaml");
    const std::string copy = folder.file("copy.yaml");
    put(path, source);
    FarmOnTrial farm(path, model::load_farm_file(path));
    const Served served(farm);
    httplib::Client client = served.client();
    auto state = nlohmann::json::parse(client.Get(served.base + "state")->body);
    const int share = name == "05-tangle" ? edits / 5 : edits * 2 / 5;
    for (int i = 0; i < share; ++i) {
      const nlohmann::json edit = random_edit(state, chance);
      const bool undoes = chance() % 8 == 0;
      CAPTURE(name, i, edit.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace));
      const auto done = undoes ? client.Post(served.base + "undo", "{}", json_type)
                               : client.Post(served.base + "edit", edit.dump(), json_type);
      REQUIRE(done);
      REQUIRE((done->status == 200 || done->status == 422));
      if (done->status == 200) {
        state = nlohmann::json::parse(done->body);
        ++kept;
      }
      const auto text = client.Get(served.base + "text");
      const auto shown = client.Get(served.base + "answer");
      REQUIRE((text && shown));
      put(copy, text->body);
      std::ostringstream out;
      std::ostringstream err;
      const std::vector<std::string> words = {"solve", copy, "--json"};
      const int status = run(words, out, err, Terminal{});
      CHECK(status <= 2);
      auto solved = nlohmann::json::parse(out.str());
      auto answered = nlohmann::json::parse(shown->body);
      solved.erase("problems");  // they name the file, which is a copy here
      answered.erase("problems");
      REQUIRE(answered == solved);
      if (solved["converged"] == true) {
        CHECK(state["svg"].is_string());
        CHECK(state["flags"].size() == solved["flags"].size());
      }
      CHECK(std::count(text->body.begin(), text->body.end(), '#') ==
            std::count(source.begin(), source.end(), '#'));
    }
  }
  CHECK(kept > edits / 2);
}

}  // namespace leat::render
