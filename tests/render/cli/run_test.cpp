#include "render/cli/run.h"

#include <cerrno>
#include <sstream>
#include <streambuf>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "render/commands/new/starter_file.h"
#include "tests/render/run_words.h"
#include "tests/render/temporary_folder.h"

namespace leat::render {

namespace {

/// A stream end that fails every write as the system would.
class FailingBuffer : public std::streambuf {
 public:
  explicit FailingBuffer(int error) : error_(error) {}

 protected:
  int_type overflow(int_type /*letter*/) override {
    errno = error_;
    return traits_type::eof();
  }
  std::streamsize xsputn(const char* /*bytes*/, std::streamsize /*count*/) override {
    errno = error_;
    return 0;
  }

 private:
  int error_;
};

int status_when_writing_fails(const std::vector<std::string>& words, int error) {
  FailingBuffer buffer(error);
  std::ostream out(&buffer);
  std::ostringstream err;
  return run(words, out, err, Terminal{});
}

}  // namespace

TEST_CASE("a wrong command line is one line on stderr, and status 2") {
  const Outcome outcome = run_words({"slove", "farm.yaml"});
  CHECK(outcome.status == 2);
  CHECK(outcome.out.empty());
  CHECK(outcome.err ==
        "leat: there is no command 'slove'; did you mean 'solve'? (try leat --help)\n");
}

TEST_CASE("a wrong command line with --json also answers in JSON on stdout") {
  const Outcome outcome = run_words({"solve", "farm.yaml", "--months", "Aug", "--json"});
  CHECK(outcome.status == 2);
  const auto object = nlohmann::json::parse(outcome.out);
  CHECK(object["format"] == 1);
  CHECK(object["command"] == "solve");
  CHECK(object["problems"][0]["code"] == "unknown-flag");
  CHECK(object["problems"][0]["hint"] == "did you mean '--month'?");
}

TEST_CASE("help is a result: stdout, status 0") {
  const Outcome outcome = run_words({"--help"});
  CHECK(outcome.status == 0);
  CHECK(outcome.err.empty());
  CHECK(outcome.out.find("Usage: leat COMMAND") != std::string::npos);
}

TEST_CASE("a file that is not there fails with status 2 and says so in JSON too") {
  const Outcome outcome = run_words({"solve", "/no/such/farm.yaml", "--json"});
  CHECK(outcome.status == 2);
  CHECK(outcome.err.find("/no/such/farm.yaml") != std::string::npos);
  const auto object = nlohmann::json::parse(outcome.out);
  CHECK(object["command"] == "solve");
  CHECK(object["problems"][0]["code"] == "unreadable");
}

TEST_CASE("a reader that has gone is no failure but a full disk is") {
  CHECK(status_when_writing_fails({"pipes"}, EPIPE) == 0);
  CHECK(status_when_writing_fails({"pipes"}, ENOSPC) == 2);
}

TEST_CASE("the starter farm is printed, or written once and not over an existing file") {
  CHECK(run_words({"new"}).out == starter_file());
  const TemporaryFolder folder;
  const std::string file = folder.file("my.yaml");
  const Outcome first = run_words({"new", file});
  CHECK(first.status == 0);
  CHECK(first.out.empty());
  CHECK(first.err == "wrote " + file + "\n");
  CHECK(folder.content("my.yaml") == starter_file());
  const Outcome second = run_words({"new", file});
  CHECK(second.status == 2);
  CHECK(second.err == "leat: '" + file + "' is there already (--replace writes over it)\n");
  CHECK(run_words({"new", file, "--replace"}).status == 0);
}

TEST_CASE("the starter farm solves, reads and draws through the program") {
  const TemporaryFolder folder;
  folder.write("my.yaml", starter_file());
  const std::string file = folder.file("my.yaml");
  const Outcome solved = run_words({"solve", file, "--json"});
  CHECK(solved.status <= 1);
  CHECK(nlohmann::json::parse(solved.out)["converged"] == true);
  CHECK(run_words({"solve", file}).out.find("upper trough") != std::string::npos);
  CHECK(run_words({"solve", file, "--csv=pipes"}).out.find("to upper,fork,upper trough") !=
        std::string::npos);
  const Outcome reading = run_words({"read", file, "--json"});
  CHECK(reading.status == 0);
  CHECK(nlohmann::json::parse(reading.out)["pipes"].size() == 4);
  const Outcome drawn = run_words({"draw", file, "-o", folder.file("my.dot")});
  CHECK(drawn.status == solved.status);
  CHECK(drawn.out.empty());
  CHECK(folder.content("my.dot").find("upper trough") != std::string::npos);
  CHECK(run_words({"draw", file, "-o", folder.file("my.dot")}).status == 2);
  CHECK(run_words({"draw", file, "-o", folder.file("my.xyz")}).status == 2);
}

TEST_CASE("an audited answer says in a last line that it holds, beside JSON on stderr") {
  const TemporaryFolder folder;
  folder.write("my.yaml", starter_file());
  const std::string file = folder.file("my.yaml");
  const Outcome plain = run_words({"solve", file});
  const Outcome table = run_words({"solve", file, "--audit"});
  CHECK(table.status == plain.status);
  CHECK(table.out.substr(0, plain.out.size()) == plain.out);
  CHECK(table.out.substr(plain.out.size()).substr(0, 8) == "\naudit: ");
  const Outcome json = run_words({"solve", file, "--audit", "--json"});
  CHECK(json.out == run_words({"solve", file, "--json"}).out);
  CHECK(json.err.find("audit: ") != std::string::npos);
  CHECK(run_words({"read", file, "--audit"}).status == 2);
}

TEST_CASE("a trough that the farm does not have is a failed solution") {
  const TemporaryFolder folder;
  folder.write("my.yaml", starter_file());
  const Outcome outcome =
      run_words({"solve", folder.file("my.yaml"), "--broken", "no such trough", "--json"});
  CHECK(outcome.status == 2);
  CHECK(nlohmann::json::parse(outcome.out)["converged"] == false);
  CHECK(outcome.err.find("no such trough") != std::string::npos);
}

TEST_CASE("a slip in a path's CSV file is shown with that file's line") {
  const TemporaryFolder folder;
  folder.write("path.csv", "distance m,elevation m\n0,9.5\nforty,1\n");
  folder.write("my.yaml",
               "farm: Test\nsprings: {s: {overflow: 10 m, yield: 1 L/min}}\n"
               "troughs: {t: {float: 1 m}}\n"
               "pipes: {p: {from: s, to: t, size: 1 in SIDR 15, path: path.csv}}\n");
  const Outcome outcome = run_words({"solve", folder.file("my.yaml")});
  CHECK(outcome.status == 2);
  CHECK(outcome.err.find("path.csv:3:1: error: ") != std::string::npos);
  CHECK(outcome.err.find("\n  forty,1\n  ^\n") != std::string::npos);
}

TEST_CASE("no output is written over a CSV file that the farm is read from, however it is named") {
  const TemporaryFolder folder;
  const std::string path = "distance m,elevation m\n0,9.5\n40,1\n";
  folder.write("path.csv", path);
  folder.write("unread.csv", path);
  folder.write("my.yaml",
               "farm: Test  # unread.csv\nsprings: {s: {overflow: 10 m, yield: 1 L/min}}\n"
               "troughs: {t: {float: 1 m}}\n"
               "pipes: {p: {from: s, to: t, size: 1 in SIDR 15, path: path.csv}}\n");
  const std::string same = folder.file("./path.csv");
  const Outcome over = run_words({"draw", folder.file("my.yaml"), "-o", same, "--replace"});
  CHECK(over.status == 2);
  CHECK(over.err.find("is a file the farm is read from") != std::string::npos);
  CHECK(folder.content("path.csv") == path);
  const Outcome other =
      run_words({"draw", folder.file("my.yaml"), "-o", folder.file("unread.csv"), "--replace"});
  CHECK(other.err.find("cannot tell from") != std::string::npos);
}

TEST_CASE("of a file of nothing but slips a hundred are told, and JSON gives all") {
  const TemporaryFolder folder;
  std::string text = "farm: Test\n";
  for (int i = 0; i < 300; ++i) {
    text += "slip" + std::to_string(i) + ": 1\n";
  }
  folder.write("my.yaml", text);
  const Outcome outcome = run_words({"solve", folder.file("my.yaml"), "--json"});
  CHECK(outcome.status == 2);
  // 300 unknown keys and no pipes.
  CHECK(outcome.err.find("and 201 more problems\n") != std::string::npos);
  CHECK(nlohmann::json::parse(outcome.out)["problems"].size() == 301);
}

}  // namespace leat::render
