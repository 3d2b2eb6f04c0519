// The report as one HTML document. What it looks like, and what a browser makes of it:
// tests/page/report_test.mjs.
#include "render/commands/report/report.h"

#include <cstdlib>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "model/keys/farm_file.h"
#include "render/cli/run.h"
#include "render/commands/report/bill_of_materials.h"
#include "render/document/document.h"
#include "render/document/page_template.h"
#include "render/document/svg_in_page.h"
#include "tests/render/run_words.h"
#include "tests/render/temporary_folder.h"

namespace leat::render {

namespace {

using Json = nlohmann::ordered_json;

std::string demo(const std::string& name) {
  return std::string(LEAT_SOURCE_DIR) + "/networks-demo/" + name + ".yaml";
}

/// An environment variable while a test needs it.
class Environment {
 public:
  Environment(const char* name, const char* value) : name_(name) {
    if (const char* const old = std::getenv(name)) {
      old_ = old;
      was_set_ = true;
    }
    setenv(name, value, 1);
  }
  Environment(const Environment&) = delete;
  Environment& operator=(const Environment&) = delete;
  ~Environment() {
    if (was_set_) {
      setenv(name_, old_.c_str(), 1);
    } else {
      unsetenv(name_);
    }
  }

 private:
  const char* name_;
  std::string old_;
  bool was_set_ = false;
};

/// The report of the tangle, made once: it has every chapter with content but measurements.
const std::string& tangle() {
  static const std::string html = [] {
    const Environment date("SOURCE_DATE_EPOCH", "1786000000");
    return run_words({"report", demo("05-tangle"), "-o", "-"}).out;
  }();
  return html;
}

std::vector<std::string> all_matches(const std::string& text, const std::string& pattern) {
  const std::regex form(pattern);
  std::vector<std::string> found;
  for (std::sregex_iterator it(text.begin(), text.end(), form), end; it != end; ++it) {
    found.push_back((*it)[1]);
  }
  return found;
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// The first tag that closes what is not open, or stays open; empty where all is well. Elements
/// HTML gives no end, and SVG's own that end in "/>", are known.
std::string unbalanced_tag(const std::string& html) {
  const std::set<std::string> endless = {"meta", "link", "br"};
  std::vector<std::string> open;
  const std::regex form("<(/?)([A-Za-z0-9]+)([^>]*)>");
  for (std::sregex_iterator it(html.begin(), html.end(), form), end; it != end; ++it) {
    const std::string name = (*it)[2];
    const std::string rest = (*it)[3];
    if ((*it)[1] == "/") {
      if (open.empty() || open.back() != name) {
        return "/" + name;
      }
      open.pop_back();
    } else if (endless.count(name) == 0 && (rest.empty() || rest.back() != '/')) {
      open.push_back(name);
    }
  }
  return open.empty() ? "" : open.back();
}

model::LoadedFarm farm_with_prices(const std::string& behind) {
  return model::load_farm(
      "farm: Bill\n"
      "springs: {top: {overflow: 30 m, yield: 20 L/min}}\n"
      "tees: {fork: 10 m}\n"
      "troughs: {north: {float: 5 m, need: 2 L/min}, south: {float: 4 m, need: 2 L/min}}\n"
      "pipes:\n"
      "  main: {from: top, to: fork, size: 32 mm PE100 SDR 11, length: 100 m,\n"
      "         fittings: [strainer, 2 elbow, k 3]}\n"
      "  up: {from: fork, to: north, size: 25 mm PE100 SDR 11, length: 40 m, fittings: [elbow],\n"
      "       valve: {type: gate, open: 100 %, at: end}}\n"
      "  down: {from: fork, to: south, size: 25 mm PE100 SDR 11, length: 60 m}\n" +
          behind,
      "bill.yaml");
}

}  // namespace

TEST_CASE("a report holds every chapter, in its order, and its contents link to each", "[report]") {
  const std::vector<std::string> links = all_matches(tangle(), "<li><a href=\"#([a-z]+)\">");
  const std::vector<std::string> sections = all_matches(tangle(), "<section id=\"([a-z]+)\"");
  const std::vector<std::string> names(report::chapter_names.begin(), report::chapter_names.end());
  CHECK(links == names);
  CHECK(sections == names);
}

TEST_CASE("a report asks for nothing outside itself", "[report]") {
  CHECK(all_matches(tangle(), "( src=)").empty());
  CHECK_FALSE(holds(tangle(), "<script"));
  CHECK_FALSE(holds(tangle(), "@import"));
  CHECK_FALSE(holds(tangle(), "<iframe"));
  CHECK_FALSE(holds(tangle(), "http://"));
  CHECK_FALSE(holds(tangle(), "https://"));
  for (const std::string& link : all_matches(tangle(), "href=[\"']([^\"']*)")) {
    CHECK((link.front() == '#' || link == "data:,"));
  }
  CHECK(holds(tangle(), "default-src 'none'"));
}

TEST_CASE("no id stands twice in a report and every reference finds its own", "[report]") {
  std::map<std::string, int> ids;
  for (const std::string& id : all_matches(tangle(), "[ \t]id=[\"']([^\"']*)")) {
    ++ids[id];
  }
  CHECK(ids.size() > 50);  // two profiles and the season's chart bring the same ones
  for (const auto& [id, count] : ids) {
    INFO(id);
    CHECK(count == 1);
  }
  for (const std::string& link : all_matches(tangle(), "(?:href=[\"']|url\\()#([^\"')]*)")) {
    INFO(link);
    CHECK(ids.count(link) == 1);
  }
}

TEST_CASE("every tag of a report is closed, and its headings do not skip a level", "[report]") {
  CHECK(unbalanced_tag(tangle()).empty());
  CHECK(unbalanced_tag("<p><b>x</p></b>") == "/p");
  CHECK(unbalanced_tag("<p><br>x") == "p");
  int before = 0;
  int first = 0;
  for (const std::string& level : all_matches(tangle(), "<h([1-6])")) {
    const int now = level.front() - '0';
    CHECK(now <= before + 1);
    first += now == 1 ? 1 : 0;
    before = now;
  }
  CHECK(first == 1);
}

TEST_CASE("every table of a report has a caption, and headings for columns and rows", "[report]") {
  const std::vector<std::string> tables = all_matches(tangle(), "<table>([^]*?)</table>");
  CHECK(tables.size() >= 10);
  for (const std::string& table : tables) {
    CHECK(holds(table, "<caption>"));
    CHECK_FALSE(holds(table, "<caption></caption>"));
    CHECK(holds(table, "<th scope=\"col\""));
    CHECK_FALSE(holds(table, "\"></th>"));
    CHECK(holds(table, "<th scope=\"row\">"));
  }
}

TEST_CASE("every picture of a report says in words what it shows", "[report]") {
  const std::vector<std::string> pictures = all_matches(tangle(), "<svg ([^>]*)>");
  CHECK(pictures.size() >= 3);
  for (const std::string& picture : pictures) {
    CHECK(holds(picture, "role=\"img\""));
    CHECK(std::regex_search(picture, std::regex("aria-label=\"[^\"]{40,}\"")));
  }
}

TEST_CASE("the same farm on the same day gives the same bytes, whatever folder it is in",
          "[report]") {
  const Environment date("SOURCE_DATE_EPOCH", "1786000000");
  const TemporaryFolder folder;
  folder.write("05-tangle.yaml", model::load_farm_file(demo("05-tangle")).source);
  const Outcome again = run_words({"report", folder.file("05-tangle.yaml"), "-o", "-"});
  CHECK((again.out == tangle()));
  CHECK(holds(tangle(), "Water report of 2026-08-06"));
}

TEST_CASE("no text of the farm's owner becomes markup", "[report]") {
  const TemporaryFolder folder;
  folder.write("farm.yaml",
               "farm: '<script>alert(1)</script> {{{page_title}}} \"quoted\" & plain'\n"
               "datum: '</pre><img src=x onerror=alert(2)> = 0 m'\n"
               "surveyed by: 'A & B <b>bold</b>'\n"
               "springs: {'<script>top': {overflow: 30 m, yield: 20 L/min}}\n"
               "troughs: {'--><script>x</script>': {float: 5 m, need: 2 L/min, seat: 6 mm}}\n"
               "pipes:\n"
               "  '</svg><script>alert(3)</script>':\n"
               "    from: '<script>top'\n"
               "    to: '--><script>x</script>'\n"
               "    size: 25 mm PE100 SDR 11\n"
               "    path: [[0 m, 29.5 m], [10 m, 20 m], [20 m, 25 m], [60 m, 5 m]]\n"
               "measured:\n"
               "  - {at: '--><script>x</script>', flow: 1 L/min}\n"
               "# </pre><script>alert(4)</script> {{colophon}}\n");
  const Outcome outcome = run_words({"report", folder.file("farm.yaml"), "-o", "-"});
  INFO(outcome.err);
  REQUIRE(outcome.status < 2);
  CHECK(holds(outcome.out, "&lt;script&gt;alert(1)&lt;/script&gt; {{{page_title}}}"));
  CHECK(holds(outcome.out, "&lt;script&gt;alert(4)&lt;/script&gt; {{colophon}}"));
  CHECK_FALSE(holds(outcome.out, "<script"));
  CHECK_FALSE(holds(outcome.out, "<img"));
  CHECK_FALSE(holds(outcome.out, "<b>bold"));
  CHECK(unbalanced_tag(outcome.out).empty());
}

TEST_CASE("chosen chapters stand in the report's own order, and the cautions come along",
          "[report]") {
  const Outcome outcome =
      run_words({"report", demo("01-over-the-rise"), "-o", "-", "--chapters", "priming, water"});
  CHECK(all_matches(outcome.out, "<section id=\"([a-z]+)\"") ==
        std::vector<std::string>{"water", "priming", "cautions"});
  CHECK(holds(outcome.out, "Never start a siphon by mouth"));
}

TEST_CASE("a chapter that a report does not have is refused with the nearest one", "[report]") {
  const Outcome outcome =
      run_words({"report", demo("01-over-the-rise"), "-o", "-", "--chapters", "water,primming"});
  CHECK(outcome.status == 2);
  CHECK(holds(outcome.err, "no chapter 'primming'"));
  CHECK(holds(outcome.err, "did you mean 'priming'?"));
  CHECK(outcome.out.empty());
}

TEST_CASE("a report ends with the status of what it shows", "[report]") {
  const TemporaryFolder folder;
  for (const char* const name : {"01-over-the-rise", "10-dip-over-its-rating"}) {
    INFO(name);
    CHECK(run_words({"report", demo(name), "-o", "-", "--chapters", "findings"}).status ==
          run_words({"solve", demo(name)}).status);
  }
  CHECK(run_words({"report", demo("20-which-pipe"), "-o", "-"}).status == 2);
}

TEST_CASE("a report whose month is well and whose season is not says so where what is amiss stands",
          "[report]") {
  const std::string html =
      run_words({"report", demo("23-dry-year"), "-o", "-", "--chapters", "findings,season"}).out;
  CHECK(holds(html, "Over the season there is: see that chapter."));
  CHECK_FALSE(holds(html, "<p>Nothing amiss that leat checks.</p>"));
}

TEST_CASE("a report's JSON tells what was written, the chapters and all flags", "[report]") {
  const TemporaryFolder folder;
  const std::string file = folder.file("out.html");
  const Outcome outcome =
      run_words({"report", demo("02-high-trough"), "-o", file, "--json", "--chapters", "findings"});
  const Json object = Json::parse(outcome.out);
  std::vector<std::string> keys;
  for (const auto& item : object.items()) {
    keys.push_back(item.key());
  }
  CHECK(std::vector<std::string>(keys.end() - 4, keys.end()) ==
        std::vector<std::string>{"wrote", "pdf", "chapters", "flags"});
  CHECK(object["command"] == "report");
  CHECK(object["wrote"] == file);
  CHECK(object["pdf"].is_null());
  CHECK(object["chapters"] == Json({"findings", "cautions"}));
  const Json solved = Json::parse(run_words({"solve", demo("02-high-trough"), "--json"}).out);
  CHECK(object["flags"] == solved["flags"]);
  CHECK(holds(folder.content("out.html"), "</html>"));
}

TEST_CASE("a report never writes over a file unasked", "[report]") {
  const TemporaryFolder folder;
  folder.write("out.html", "mine");
  const Outcome outcome = run_words(
      {"report", demo("01-over-the-rise"), "-o", folder.file("out.html"), "--chapters", "water"});
  CHECK(outcome.status == 2);
  CHECK(folder.content("out.html") == "mine");
  folder.write("new.pdf", "mine too");
  const Outcome beside = run_words({"report",
                                    demo("01-over-the-rise"),
                                    "-o",
                                    folder.file("new.html"),
                                    "--pdf",
                                    "--chapters",
                                    "water"});
  CHECK(beside.status == 2);
  CHECK(holds(beside.err, "new.pdf' is there already"));
  CHECK(folder.count() == 2);
}

TEST_CASE("where a report may go is said before anything is computed", "[report]") {
  CHECK(holds(run_words({"report", demo("01-over-the-rise")}).err, "write -o farm.html"));
  CHECK(holds(run_words({"report", demo("01-over-the-rise"), "-o", "x.pdf"}).err,
              "--pdf writes the PDF beside it"));
  CHECK(run_words({"report", demo("01-over-the-rise"), "-o", "-", "--pdf"}).status == 2);
}

TEST_CASE("without gnuplot a report stands, and says what is missing where a picture would be",
          "[report]") {
  const Environment path("PATH", "/nowhere");
  const Outcome outcome =
      run_words({"report", demo("01-over-the-rise"), "-o", "-", "--chapters", "profiles"});
  CHECK(outcome.status < 2);
  CHECK(holds(outcome.out,
              "No picture: gnuplot, which draws the picture, is not installed (on "
              "Debian: apt-get install gnuplot-nox)."));
  CHECK(holds(outcome.out, "<caption>Points of "));
}

TEST_CASE("without Chromium the HTML is written and the message says how to print it", "[report]") {
  const Environment path("PATH", "/nowhere");
  const TemporaryFolder folder;
  const Outcome outcome = run_words({"report",
                                     demo("01-over-the-rise"),
                                     "-o",
                                     folder.file("out.html"),
                                     "--pdf",
                                     "--chapters",
                                     "water"});
  CHECK(outcome.status == 2);
  CHECK(holds(outcome.err, "Chromium, which prints the PDF, is not installed"));
  CHECK(holds(outcome.err, "apt-get install chromium"));
  CHECK(holds(outcome.err, "open the HTML in any browser and print it"));
  CHECK(holds(folder.content("out.html"), "</html>"));
  CHECK(folder.count() == 1);
}

TEST_CASE("what was measured stands beside what is computed", "[report]") {
  const Outcome outcome =
      run_words({"report", demo("19-weak-line"), "-o", "-", "--chapters", "measurements"});
  CHECK(holds(outcome.out, "1 gal in 58 s, 1 gal in 60 s, 1 gal in 59 s"));
  CHECK(holds(outcome.out, "<th scope=\"col\" class=\"right\">computed</th>"));
  CHECK(holds(outcome.out, "2026-08-12"));
}

TEST_CASE("a template tag for which nothing stands is noticed", "[report]") {
  const report::Page page{"Farm", "2026-08-14", "made", {}};
  CHECK_NOTHROW(report::page_html(page));
  CHECK(report::page_html(page, "<p>{{page_title}}</p>") == "<p>Farm</p>");
  CHECK_THROWS_AS(report::page_html(page, "<p>{{page_titel}}</p>"), std::logic_error);
  CHECK_THROWS_AS(report::page_html(page, "{{#chapters}}"), std::logic_error);
}

TEST_CASE("every kind of block finds its place in the template", "[report]") {
  const report::Chapter chapter{
      "all",
      "All",
      {report::Paragraph{"a paragraph"},
       report::Subheading{"a part"},
       report::Facts{{{"name", "fact"}}},
       report::Listing{report::Listing::Kind::Numbered, {"first"}},
       report::Listing{report::Listing::Kind::Unnumbered, {"some"}},
       report::Findings{{{solver::Severity::Danger, "it bursts"}}},
       report::Figures{{{{"the caption", Align::Left}, {"", Align::Right}}, {{"row", "7"}}},
                       "place"},
       report::Picture{"Picture", "<svg></svg>", "words"},
       report::Verbatim{"a file", "line 1\r\nline <2>\n"},
       report::Signature{{"signed by"}}}};
  const std::string html = report::page_html({"Farm", "2026-08-14", "made", {chapter}});
  for (const char* const part :
       {"<p>a paragraph</p>",
        "<h3>a part</h3>",
        "<dt>name</dt>\n<dd>fact</dd>",
        "<ol>\n<li>first</li>\n</ol>",
        "<ul>\n<li>some</li>\n</ul>",
        "<li class=\"danger\"><b>danger</b> it bursts</li>",
        "<caption>The caption</caption>",
        "<th scope=\"col\">place</th><th scope=\"col\" class=\"right\">kind</th>",
        "<th scope=\"row\">row</th><td class=\"right\">7</td>",
        "<svg></svg>",
        "<h3>a file</h3>\n<pre>line 1\nline &lt;2&gt;\n</pre>",
        "<p class=\"line\">signed by</p>"}) {
    INFO(part);
    CHECK(holds(html, part));
  }
}

TEST_CASE("lists and tables with nothing in them are left out", "[report]") {
  const report::Chapter chapter{"all",
                                "All",
                                {report::Listing{},
                                 report::Findings{},
                                 report::Figures{{{{"empty", Align::Left}}, {}}, "place"},
                                 report::Paragraph{""}}};
  const std::string html = report::page_html({"Farm", "2026-08-14", "made", {chapter}});
  CHECK(std::regex_search(html, std::regex("<h2 id=\"all-title\">All</h2>\\s*</section>")));
}

TEST_CASE("a picture in a page keeps its view, and its ids are its own", "[report]") {
  const std::string svg = report::svg_in_page(
      "<?xml version=\"1.0\"?>\n<!DOCTYPE svg>\n<!-- made -->\n<svg width=\"10pt\" height=\"5pt\"\n"
      " viewBox=\"0 0 10 5\" xmlns=\"http://www.w3.org/2000/svg\"><title>t</title>\n"
      "<g id=\"a\"><use xlink:href='#b'/><path\tid='b' fill=\"url(#c)\"/></g>"
      "<text>id=\"a\" &lt;x</text></svg>\n",
      "one-",
      "say \"this\" & <that>");
  CHECK(svg ==
        "<svg viewBox=\"0 0 10 5\" role=\"img\" aria-label=\"say &quot;this&quot; &amp; "
        "&lt;that&gt;\">\n"
        "<g id=\"one-a\"><use xlink:href='#one-b'/><path\tid='one-b' fill=\"url(#one-c)\"/></g>"
        "<text>id=\"a\" &lt;x</text></svg>\n");
  CHECK(report::svg_in_page("no picture", "one-", "words").empty());
}

TEST_CASE("a bill adds up lengths by size and counts every piece", "[report]") {
  const model::LoadedFarm loaded = farm_with_prices("");
  REQUIRE(loaded.farm);
  const report::BillOfMaterials bill = report::bill_of_materials(*loaded.farm);
  REQUIRE(bill.pipes.size() == 2);
  CHECK(bill.pipes[0].length_m == Approx(100.0));
  CHECK(bill.pipes[1].length_m == Approx(100.0));  // 40 m + 60 m
  std::map<std::string, int> pieces;
  for (const report::FittingItem& item : bill.fittings) {
    pieces[item.name] = item.count;
  }
  CHECK(pieces == std::map<std::string, int>{
                      {"strainer", 1}, {"elbow", 3}, {"gate valve", 1}, {"float valve", 2}});
  CHECK_FALSE(bill.has_prices);
  CHECK_FALSE(bill.is_complete);
}

TEST_CASE("a bill buys what is not in store, at the file's prices", "[report]") {
  const model::LoadedFarm loaded = farm_with_prices(
      "prices: {32 mm PE100 SDR 11: 2.50 per m, 25 mm PE100 SDR 11: 1.80 per m, elbow: 3 each}\n"
      "stock: {32 mm PE100 SDR 11: 130 m, 25 mm PE100 SDR 11: 25 m}\n");
  REQUIRE(loaded.farm);
  const report::BillOfMaterials bill = report::bill_of_materials(*loaded.farm);
  CHECK(bill.pipes[0].stock_m == Approx(100.0));  // no more than is laid
  CHECK(bill.pipes[0].cost == Approx(0.0));
  CHECK(bill.pipes[1].cost == Approx(135.0));  // 75 m at 1.80
  CHECK(bill.priced == Approx(144.0));         // and three elbows at 3
  CHECK(bill.has_prices);
  CHECK_FALSE(bill.is_complete);  // no price for the strainer, the valves
}

}  // namespace leat::render
