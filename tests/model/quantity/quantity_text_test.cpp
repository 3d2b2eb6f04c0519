#include "model/quantity/quantity_text.h"

#include <cmath>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using namespace leat::model;  // NOLINT(google-build-using-namespace)

namespace {

/// The SI value of what was read; fails the test where it was refused.
template <class Value>
double si_of(const Parsed<Value>& parsed) {
  if (const QuantityProblem* problem = std::get_if<QuantityProblem>(&parsed)) {
    FAIL("refused: " << problem->code << ": " << problem->text);
  }
  return std::get<Value>(parsed).in_si();
}

double number_of(const Parsed<double>& parsed) {
  if (const QuantityProblem* problem = std::get_if<QuantityProblem>(&parsed)) {
    FAIL("refused: " << problem->code << ": " << problem->text);
  }
  return std::get<double>(parsed);
}

template <class Value>
QuantityProblem problem_of(const Parsed<Value>& parsed) {
  const QuantityProblem* problem = std::get_if<QuantityProblem>(&parsed);
  return problem == nullptr ? QuantityProblem{"accepted", "accepted", "accepted"} : *problem;
}

struct Accepted {
  std::string text;
  double si;
};

struct Refused {
  std::string text;
  std::string code;
  std::string says;  // part of the sentence
  std::string hint;  // the whole hint
};

void check_refused(const Refused& row, const QuantityProblem& problem) {
  CAPTURE(row.text, problem.text, problem.hint);
  CHECK(problem.code == row.code);
  CHECK_THAT(problem.text, Catch::Contains(row.says));
  CHECK(problem.hint == row.hint);
}

const std::string digits_hint =
    "write digits with a decimal point, or a fraction: 12.5, 3/4 or 1-1/4";

}  // namespace

TEST_CASE("a length is read in every unit and spelling the format lists") {
  const Accepted row = GENERATE(values<Accepted>(
      {{"120 ft", 36.576},        {"120ft", 36.576},     {"120.5 ft", 36.7284}, {"0 ft", 0.0},
       {"0.25 in", 0.00635},      {"3 m", 3.0},          {"32 mm", 0.032},      {"4.5 cm", 0.045},
       {"1.2 km", 1200.0},        {"2 yd", 1.8288},      {"1 mi", 1609.344},    {"3/4 in", 0.01905},
       {"1-1/4 in", 0.03175},     {"1-1/2in", 0.0381},   {"6 ft 3 in", 1.905},  {"6ft 3in", 1.905},
       {"6 ft 3-1/2 in", 1.9177}, {"0 ft 3 in", 0.0762}, {"1e3 mm", 1.0},       {"1.5e-3 km", 1.5},
       {"2E+1 m", 20.0},          {" 3 m ", 3.0}}));
  CAPTURE(row.text);
  CHECK(si_of(parse_length(row.text)) == Approx(row.si).epsilon(1e-14).margin(0.0));
}

TEST_CASE("a length that could be misread is refused with the way to write it") {
  const Refused row = GENERATE(values<Refused>({
      {"120", "missing-unit", "'120' has no unit", "write 120 ft or 120 m"},
      {"0", "missing-unit", "'0' has no unit", "write 0 ft or 0 m"},
      {"1-1/4", "missing-unit", "has no unit", "write 1-1/4 ft or 1-1/4 m"},
      {"3 ft 2", "missing-unit", "no unit after 2", "write feet and inches: 6 ft 3 in"},
      {"120 psi", "wrong-unit", "is a pressure, a length is wanted", "write 120 ft or 120 m"},
      {"120 gallons", "wrong-unit", "is a volume, a length is wanted", "write 120 ft or 120 m"},
      {"120 feet", "unknown-unit", "'feet' is not a unit", "write 120 ft"},
      {"120 FT", "unknown-unit", "'FT' is not a unit", "write 120 ft"},
      {"120 M", "unknown-unit", "'M' is not a unit", "write 120 m"},
      {"3\"", "unknown-unit", "is not a unit", "write 3 in"},
      {"120 paces",
       "unknown-unit",
       "'paces' is not a unit",
       "a length is in m, cm, mm, km, ft, in, yd or mi"},
      {"6ft3in", "unknown-unit", "'ft3in'", "a length is in m, cm, mm, km, ft, in, yd or mi"},
      {"010 ft", "not-a-number", "starts with a needless 0", "write 10 ft"},
      {"00 ft", "not-a-number", "starts with a needless 0", "write 0 ft"},
      {"1,200 ft", "not-a-number", "separator inside its number", "write 1200 ft"},
      {"1_200 ft", "not-a-number", "separator inside its number", "write 1200 ft"},
      {"1 200 ft", "not-a-number", "blank inside its number", "write 1200 ft"},
      {"1,5 m", "not-a-number", "comma where a decimal point belongs", "write 1.5 m"},
      {"1 1/4 in", "not-a-number", "blank inside its number", "write 1-1/4 in"},
      {"5. m", "not-a-number", "no digit after its point", "write 5 m"},
      {".5 in", "not-a-number", "no digit before its point", "write 0.5 in"},
      {"1.2.3 m", "not-a-number", "two decimal points", digits_hint},
      {"1/0 in", "not-a-number", "fraction that is no number", digits_hint},
      {"3//4 in", "not-a-number", "is not one number", digits_hint},
      {"1-5/4 in", "not-a-number", "one or more beside a whole number", digits_hint},
      {"5-7 ft", "not-a-number", "is not one number", digits_hint},
      {"nan", "not-a-number", "does not start with a number", digits_hint},
      {"inf ft", "not-a-number", "does not start with a number", digits_hint},
      {".inf", "not-a-number", "does not start with a number", digits_hint},
      {"0x10 ft", "not-a-number", "is not a decimal number", digits_hint},
      {"ft", "not-a-number", "does not start with a number", digits_hint},
      {"", "not-a-number", "there is no number", "write a number"},
      {"+5 ft", "not-a-number", "starts with a plus", "write 5 ft"},
      {"\u22125 ft", "not-a-number", "starts with a long minus", "write -5 ft"},
      {"120  ft", "not-a-number", "more than one blank in a row", "write 120 ft"},
      {"6.5 ft 3 in",
       "not-a-number",
       "is not feet and inches",
       "write whole feet, then inches: 6 ft 3 in"},
      {"6 ft 13 in",
       "not-a-number",
       "is not feet and inches",
       "write whole feet, then inches: 6 ft 3 in"},
      {"1 m 20 cm",
       "not-a-number",
       "is not feet and inches",
       "write whole feet, then inches: 6 ft 3 in"},
      {"-5 ft", "out-of-range", "is below zero, which a length never is", ""},
      {"1e400 m", "out-of-range", "beyond any measure", ""},
      {"1e-400 m", "out-of-range", "beyond any measure", ""},
      {"1e9 m", "out-of-range", "is too large for a length", ""},
      {"1e-30 m", "out-of-range", "is too small for a length", ""},
  }));
  check_refused(row, problem_of(parse_length(row.text)));
}

TEST_CASE("a level may lie below the datum") {
  const Accepted row = GENERATE(values<Accepted>({{"131.5 ft", 40.0812},
                                                  {"-5 ft", -1.524},
                                                  {"-6 ft 3 in", -1.905},
                                                  {"-1-1/2 m", -1.5},
                                                  {"0 m", 0.0}}));
  CAPTURE(row.text);
  CHECK(si_of(parse_elevation(row.text)) == Approx(row.si).epsilon(1e-14).margin(0.0));
  CHECK_FALSE(std::signbit(si_of(parse_elevation("-0 ft"))));
  const Refused refused = GENERATE(values<Refused>(
      {{"-5", "missing-unit", "'-5' has no unit", "write -5 ft or -5 m"},
       {"--5 ft", "not-a-number", "does not start with a number", digits_hint},
       {"2e5 m", "out-of-range", "too large for a level", ""},
       {"5 gal", "wrong-unit", "a volume, a level is wanted", "write 5 ft or 5 m"}}));
  check_refused(refused, problem_of(parse_elevation(refused.text)));
}

TEST_CASE("a flow is read in every unit the format lists, and as a bucket filled in a time") {
  constexpr double gallon = 3.785411784e-3;
  const Accepted row = GENERATE_COPY(values<Accepted>({
      {"2 L/s", 0.002},
      {"30 L/min", 0.0005},
      {"3600 L/h", 0.001},
      {"86400 L/day", 0.001},
      {"0.5 m3/s", 0.5},
      {"3.6 m3/h", 0.001},
      {"86.4 m3/day", 0.001},
      {"9 gal/min", 9.0 * gallon / 60.0},
      {"9 gpm", 9.0 * gallon / 60.0},
      {"9 GPM", 9.0 * gallon / 60.0},
      {"9 Gal/min", 9.0 * gallon / 60.0},
      {"60 gal/h", gallon / 60.0},
      {"1440 gal/day", gallon / 60.0},
      {"5 imp gal/min", 5.0 * 4.54609e-3 / 60.0},
      {"1200 imp gal/day", 1200.0 * 4.54609e-3 / 86400.0},
      {"1 ft3/s", 0.028316846592},
      {"1 gal in 16 s", gallon / 16.0},
      {"10 L in 41 s", 0.01 / 41.0},
      {"5 gal in 1 min 12 s", 5.0 * gallon / 72.0},
      {"2-1/2 gal in 1/2 min", 2.5 * gallon / 30.0},
      {"1 imp gal in 20 s", 4.54609e-3 / 20.0},
      {"1 acre-in in 2 day", 102.79015312896 / 172800.0},
      {"500 mL in 8 s", 0.0005 / 8.0},
      {"0 gal/min", 0.0},
  }));
  CAPTURE(row.text);
  CHECK(si_of(parse_flow(row.text)) == Approx(row.si).epsilon(1e-14).margin(0.0));
}

TEST_CASE("a flow that could be misread is refused with the way to write it") {
  const Refused row = GENERATE(values<Refused>({
      {"9", "missing-unit", "'9' has no unit", "write 9 gal/min or 9 L/min"},
      {"5 gal", "wrong-unit", "a volume, a flow is wanted", "write 5 gal/min or 5 L/min"},
      {"5 gal in 16", "missing-unit", "'16' has no unit", "write 5 gal in 16 s or 5 gal in 16 min"},
      {"5 gal in 16 ft", "wrong-unit", "a length, a time is wanted", "write 16 h or 16 min"},
      {"5 ft in 16 s", "wrong-unit", "a length, a volume is wanted", "write 5 gal or 5 L"},
      {"5 gal in 0 s", "out-of-range", "is no time to fill anything", ""},
      {"-5 gal in 9 s", "out-of-range", "is below zero", ""},
      {"-5 L/s", "out-of-range", "below zero, which a flow never is", ""},
      {"1e9 m3/s", "out-of-range", "too large for a flow", ""},
      {"5 l/s", "unknown-unit", "'l/s' is not a unit", "write 5 L/s"},
      {"5 GAL/MIN", "unknown-unit", "'GAL/MIN' is not a unit", "write 5 gal/min"},
      {"5 gal/s", "unknown-unit", "'gal/s' is not a unit", "write 300 gal/min"},
      {"5 gph", "unknown-unit", "'gph' is not a unit", "write 5 gal/h"},
      {"2 miner's inches",
       "unknown-unit",
       "differs by state",
       "write 22.4 gal/min (at 40 to the ft3/s) or 18 gal/min (at 50)"},
      {"9 gal/min 3 gal/min",
       "not-a-number",
       "more than one amount",
       "write one number and one unit"},
  }));
  check_refused(row, problem_of(parse_flow(row.text)));
}

TEST_CASE("volumes, areas, times, temperatures and depths are read in every unit listed") {
  SECTION("volume") {
    const Accepted row = GENERATE(values<Accepted>({{"3 L", 0.003},
                                                    {"250 mL", 0.00025},
                                                    {"2 m3", 2.0},
                                                    {"1 gal", 3.785411784e-3},
                                                    {"1 GAL", 3.785411784e-3},
                                                    {"1 imp gal", 4.54609e-3},
                                                    {"1 ft3", 0.028316846592},
                                                    {"1 acre-ft", 1233.48183754752},
                                                    {"1 acre-in", 102.79015312896}}));
    CAPTURE(row.text);
    CHECK(si_of(parse_volume(row.text)) == Approx(row.si).epsilon(1e-14));
  }
  SECTION("area") {
    const Accepted row = GENERATE(values<Accepted>(
        {{"3 m2", 3.0}, {"2 ha", 20000.0}, {"1 acre", 4046.8564224}, {"10 ft2", 0.9290304}}));
    CAPTURE(row.text);
    CHECK(si_of(parse_area(row.text)) == Approx(row.si).epsilon(1e-14));
  }
  SECTION("time") {
    const Accepted row = GENERATE(values<Accepted>({{"5 s", 5.0},
                                                    {"12 min", 720.0},
                                                    {"6 h", 21600.0},
                                                    {"1/2 day", 43200.0},
                                                    {"1 min 12 s", 72.0},
                                                    {"1 h 30 min", 5400.0},
                                                    {"1 day 2 h 3 min 4 s", 93784.0}}));
    CAPTURE(row.text);
    CHECK(si_of(parse_duration(row.text)) == Approx(row.si).epsilon(1e-14));
  }
  SECTION("temperature") {
    const Accepted row = GENERATE(
        values<Accepted>({{"15 C", 15.0}, {"-5 C", -5.0}, {"59 F", 15.0}, {"-40 F", -40.0}}));
    CAPTURE(row.text);
    CHECK(si_of(parse_temperature(row.text)) == Approx(row.si).epsilon(1e-14));
  }
  SECTION("depth a day") {
    const Accepted row = GENERATE(
        values<Accepted>({{"6 mm/day", 0.006 / 86400.0}, {"1/4 in/day", 0.00635 / 86400.0}}));
    CAPTURE(row.text);
    CHECK(si_of(parse_depth_rate(row.text)) == Approx(row.si).epsilon(1e-14));
  }
}

TEST_CASE("volumes, times, temperatures and depths that are wrong say what is wanted") {
  check_refused({"350", "missing-unit", "has no unit", "write 350 gal or 350 L"},
                problem_of(parse_volume("350")));
  check_refused({"2 ML", "unknown-unit", "'ML' is not a unit", "write 2000 m3"},
                problem_of(parse_volume("2 ML")));
  check_refused({"2 qt", "unknown-unit", "'qt' is not a unit", "write 0.5 gal"},
                problem_of(parse_volume("2 qt")));
  check_refused({"3 m", "wrong-unit", "a length, an area is wanted", "write 3 ft2 or 3 m2"},
                problem_of(parse_area("3 m")));
  check_refused({"6", "missing-unit", "has no unit", "write 6 h or 6 min"},
                problem_of(parse_duration("6")));
  check_refused({"30 min 1 h",
                 "not-a-number",
                 "is not one time",
                 "write the longer unit first: 1 h 30 min or 1 min 12 s"},
                problem_of(parse_duration("30 min 1 h")));
  check_refused({"2 hours", "unknown-unit", "'hours' is not a unit", "write 2 h"},
                problem_of(parse_duration("2 hours")));
  check_refused({"55", "missing-unit", "has no unit", "write 55 F or 55 C"},
                problem_of(parse_temperature("55")));
  check_refused({"55 \u00b0F", "unknown-unit", "is not a unit", "write 55 F"},
                problem_of(parse_temperature("55 \u00b0F")));
  check_refused({"-300 C", "out-of-range", "colder than anything can be", ""},
                problem_of(parse_temperature("-300 C")));
  check_refused({"6 mm", "wrong-unit", "a depth a day is wanted", "write 6 in/day or 6 mm/day"},
                problem_of(parse_depth_rate("6 mm")));
}

TEST_CASE("a pressure is read in every unit, columns of water and mercury included") {
  const Accepted row = GENERATE(values<Accepted>({{"101325 Pa", 101325.0},
                                                  {"96.4 kPa", 96400.0},
                                                  {"2 bar", 2e5},
                                                  {"40 psi", 40.0 * 6894.757293168361},
                                                  {"40 PSI", 40.0 * 6894.757293168361},
                                                  {"3 m water", 29419.95},
                                                  {"10 ft water", 29890.6692},
                                                  {"2.07e11 Pa", 2.07e11}}));
  CAPTURE(row.text);
  CHECK(si_of(parse_pressure(row.text)) == Approx(row.si).epsilon(1e-14));
  // Conventional inch of mercury, 3386.389 Pa to the printed digits (from memory).
  CHECK(si_of(parse_pressure("1 in Hg")) == Approx(3386.389).margin(5e-4));
}

TEST_CASE("a column of water without the word water is refused as a pressure") {
  const Refused row = GENERATE(values<Refused>({
      {"20 ft", "wrong-unit", "a length, a pressure is wanted", "write 20 ft water"},
      {"20 feet", "wrong-unit", "a length, a pressure is wanted", "write 20 ft water"},
      {"20 m", "wrong-unit", "a length, a pressure is wanted", "write 20 m water"},
      {"20 in",
       "wrong-unit",
       "a length, a pressure is wanted",
       "write psi, kPa, ft water or m water"},
      {"0.8 MPa", "unknown-unit", "'MPa' is not a unit", "write 800 kPa"},
      {"20 KPA", "unknown-unit", "'KPA' is not a unit", "write 20 kPa"},
      {"20", "missing-unit", "has no unit", "write 20 psi or 20 kPa"},
      {"-1 psi", "out-of-range", "below zero", ""},
  }));
  check_refused(row, problem_of(parse_pressure(row.text)));
}

TEST_CASE("a bare number is a number and nothing else") {
  const Accepted row = GENERATE(values<Accepted>({{"5", 5.0},
                                                  {"-5", -5.0},
                                                  {"0", 0.0},
                                                  {"0.61", 0.61},
                                                  {"3/4", 0.75},
                                                  {"-1-1/4", -1.25},
                                                  {"1e6", 1e6},
                                                  {"1.5E-3", 1.5e-3}}));
  CAPTURE(row.text);
  CHECK(number_of(parse_number(row.text)) == Approx(row.si).epsilon(1e-15).margin(0.0));
  const Refused refused = GENERATE(values<Refused>({
      {"5 ft", "wrong-unit", "is more than a number", "write 5"},
      {"5abc", "not-a-number", "is more than a number", "write 5"},
      {"5 6", "not-a-number", "blank inside its number", "write one number"},
      {"010", "not-a-number", "needless 0", "write 10"},
      {"0x1F", "not-a-number", "not a decimal number", digits_hint},
      {".nan", "not-a-number", "does not start with a number", digits_hint},
      {"yes", "not-a-number", "does not start with a number", digits_hint},
      {"1e16", "out-of-range", "is too large", ""},
  }));
  check_refused(refused, problem_of(parse_number(refused.text)));
}

TEST_CASE("a share runs from shut to fully open, both included") {
  const Accepted row = GENERATE(values<Accepted>({{"3/8", 0.375},
                                                  {"0.4", 0.4},
                                                  {"40 %", 0.4},
                                                  {"40%", 0.4},
                                                  {"0", 0.0},
                                                  {"0 %", 0.0},
                                                  {"1", 1.0},
                                                  {"100 %", 1.0}}));
  CAPTURE(row.text);
  CHECK(number_of(parse_share(row.text)) == Approx(row.si).epsilon(1e-15).margin(0.0));
  const std::string hint = "write a fraction from 0 to 1, as 3/8 or 0.4, or 40 %";
  const Refused refused =
      GENERATE_COPY(values<Refused>({{"40", "out-of-range", "not between 0 and 1", "write 40 %"},
                                     {"1.5", "out-of-range", "not between 0 and 1", hint},
                                     {"-0.1", "out-of-range", "not between 0 and 1", hint},
                                     {"101 %", "out-of-range", "'101 %' is not between", hint},
                                     {"%", "not-a-number", "there is no number", hint},
                                     {"half", "not-a-number", "does not start with", hint},
                                     {"40 percent", "not-a-number", "more than a number", hint}}));
  check_refused(refused, problem_of(parse_share(refused.text)));
}

TEST_CASE("only a flow written per day is a daily amount") {
  struct Row {
    std::string text;
    bool per_day;
  };
  const Row row = GENERATE(values<Row>({{"350 gal/day", true},
                                        {"350 Gal/day", true},
                                        {"1200 imp gal/day", true},
                                        {"900 L/day", true},
                                        {"1.5 m3/day", true},
                                        {"9 gal/min", false},
                                        {"9 gpm", false},
                                        {"60 gal/h", false},
                                        {"0.2 L/s", false},
                                        {"350 gal in 1 day", false},
                                        {"1 gal in 16 s", false}}));
  CAPTURE(row.text);
  const Parsed<WrittenNeed> parsed = parse_need(row.text);
  REQUIRE(std::holds_alternative<WrittenNeed>(parsed));
  const WrittenNeed& need = std::get<WrittenNeed>(parsed);
  CHECK(std::holds_alternative<leat::Volume>(need) == row.per_day);
  const double rate_m3_s = row.per_day ? std::get<leat::Volume>(need).in_si() / 86400.0
                                       : std::get<leat::Flow>(need).in_si();
  CHECK(rate_m3_s == Approx(si_of(parse_flow(row.text))).epsilon(1e-15));
  CHECK(problem_of(parse_need("350 gal")).code == "wrong-unit");
}

TEST_CASE("what a float passes is a flow at a pressure") {
  const auto parsed = parse_flow_at_pressure("9 gal/min at 40 psi");
  REQUIRE(parsed.index() == 0);
  CHECK(std::get<0>(parsed).first.in_si() == si_of(parse_flow("9 gal/min")));
  CHECK(std::get<0>(parsed).second.in_si() == si_of(parse_pressure("40 psi")));
  CHECK(parse_flow_at_pressure("5 gal in 30 s at 2 bar").index() == 0);
  check_refused({"9 gal/min", "missing-unit", "names no pressure", "write 9 gal/min at 40 psi"},
                problem_of(parse_flow_at_pressure("9 gal/min")));
  check_refused({"at 40 ft", "wrong-unit", "a pressure is wanted", "write 40 ft water"},
                problem_of(parse_flow_at_pressure("9 gal/min at 40 ft")));
  check_refused({"9 gal", "wrong-unit", "a flow is wanted", "write 9 gal/min or 9 L/min"},
                problem_of(parse_flow_at_pressure("9 gal at 40 psi")));
}

TEST_CASE("units agree with the published conversions", "[reference]") {
  struct Row {
    std::string source;
    double found;
    double expected;
    double tolerance;
  };
  const std::string exact = "reference-values L, exact by definition";
  const std::string printed = "reference-values L, printed digits";
  const auto length = [](const char* text) { return si_of(parse_length(text)); };
  const auto flow = [](const char* text) { return si_of(parse_flow(text)); };
  const auto volume = [](const char* text) { return si_of(parse_volume(text)); };
  const auto pressure = [](const char* text) { return si_of(parse_pressure(text)); };
  const std::vector<Row> rows = {
      {exact, length("1 in"), 0.0254, 1e-12},
      {exact, length("1 ft"), 0.3048, 1e-12},
      {exact, length("1 mi"), 1609.344, 1e-12},
      {exact, volume("1 gal"), 3.785411784e-3, 1e-12},
      {exact, volume("1 imp gal"), 4.54609e-3, 1e-12},
      {exact, volume("1 imp gal") / volume("1 gal"), 1.200949925504855, 1e-12},
      {exact, volume("1 ft3"), 28.316846592e-3, 1e-12},
      {exact, volume("1 ft3") / volume("1 gal"), 7.48051948051948, 1e-12},
      {exact, volume("1 acre-ft"), 1233.48183754752, 1e-12},
      {exact, volume("1 acre-ft") / volume("1 gal"), 325851.428571428, 1e-12},
      {exact, volume("1 acre-in"), 102.79015312896, 1e-12},
      {printed, volume("1 acre-in") / volume("1 gal"), 27154.285714, 1e-10},
      {exact, length("1 mm") * si_of(parse_area("1 ha")), volume("10 m3"), 1e-12},
      {exact, flow("1 gpm"), 6.30901964e-5, 1e-12},
      {printed, flow("1 L/s") / flow("1 gpm"), 15.850323141489, 1e-12},
      {printed, flow("1 imp gal/min"), 0.0757681667e-3, 1e-9},
      {printed, flow("1 ft3/s") / flow("1 gpm"), 448.831168831, 1e-12},
      {printed, flow("1 ft3/s") * 86400.0 / volume("1 acre-ft"), 1.98347107438, 1e-11},
      {printed, flow("1 gpm") * 86400.0, 5.450992969, 1e-9},
      {printed, pressure("1 psi"), 6894.757293168, 1e-12},
      {printed, pressure("1 ft water"), 2989.06692, 1e-12},
      {printed, pressure("1 ft water") / pressure("1 psi"), 0.433527504, 2e-9},
      {printed, pressure("1 psi") / pressure("1 ft water"), 2.306658726, 1e-9},
  };
  for (const Row& row : rows) {
    CAPTURE(row.source, row.expected);
    CHECK(row.found == Approx(row.expected).epsilon(row.tolerance));
  }
}

TEST_CASE("a bucket and a watch give the flow they should", "[reference]") {
  // reference-values K1b: bucket arithmetic, exact (common practice, no source).
  const std::string source = "reference-values K1b, common practice, no source";
  CAPTURE(source);
  const auto flow = [](const char* text) { return si_of(parse_flow(text)); };
  CHECK(flow("1 gal in 15 s") == Approx(flow("4 gal/min")).epsilon(1e-14));
  CHECK(flow("240 gal/h") == Approx(flow("4 gal/min")).epsilon(1e-14));
  CHECK(flow("5760 gal/day") == Approx(flow("4 gal/min")).epsilon(1e-14));
  CHECK(flow("40320 gal in 7 day") == Approx(flow("4 gal/min")).epsilon(1e-14));
  CHECK(flow("2103840 gal in 365.25 day") == Approx(flow("4 gal/min")).epsilon(1e-14));
  CHECK(flow("1 gal in 12 s") == Approx(flow("5 gal/min")).epsilon(1e-14));
  CHECK(flow("1 gal in 45 s") * 3.0 == Approx(flow("1 gal in 15 s")).epsilon(1e-14));
}

TEST_CASE("what a hint tells to write is accepted", "[law]") {
  const std::vector<std::string> lengths = {"120",
                                            "0",
                                            "1-1/4",
                                            "120 psi",
                                            "120 feet",
                                            "120 FT",
                                            "3\"",
                                            "010 ft",
                                            "00 ft",
                                            "1,200 ft",
                                            "1 200 ft",
                                            "1,5 m",
                                            "1 1/4 in",
                                            "5. m",
                                            ".5 in",
                                            "+5 ft",
                                            "120  ft",
                                            "120 gallons"};
  const std::vector<std::string> flows = {
      "9", "5 gal", "5 l/s", "5 gal/s", "5 gph", "5 lpm", "2 cfs", "5 gal in 16"};
  const std::vector<std::string> pressures = {"20", "20 ft", "20 m", "0.8 MPa", "30 inHg"};
  const auto told = [](const std::string& hint) {
    const std::string start = "write ";
    REQUIRE(hint.substr(0, start.size()) == start);
    return hint.substr(start.size(), hint.find(" or ") - start.size());
  };
  for (const std::string& text : lengths) {
    CAPTURE(text);
    CHECK(parse_length(told(problem_of(parse_length(text)).hint)).index() == 0);
  }
  for (const std::string& text : flows) {
    CAPTURE(text);
    CHECK(parse_flow(told(problem_of(parse_flow(text)).hint)).index() == 0);
  }
  for (const std::string& text : pressures) {
    CAPTURE(text);
    CHECK(parse_pressure(told(problem_of(parse_pressure(text)).hint)).index() == 0);
  }
}

TEST_CASE("any bytes are refused with a code, a sentence and no crash") {
  std::string long_digits(100000, '9');
  const std::vector<std::string> texts = {long_digits,
                                          long_digits + " ft",
                                          std::string(100000, ' ') + "5",
                                          std::string("5\0 ft", 5),
                                          "\xff\xfe",
                                          "5 \xc3\x28",
                                          "5 ft \xf0\x9f",
                                          "-",
                                          "- ",
                                          "5e",
                                          "5e+",
                                          "1-",
                                          "1/",
                                          "1-1/",
                                          "1-1",
                                          "1 in 2 in 3",
                                          " in 5 s",
                                          "5 in in ",
                                          "5, ft",
                                          "5 ft,",
                                          "9 9 9 9 9 9 9 9 9 9"};
  for (const std::string& text : texts) {
    CAPTURE(text.substr(0, 20));
    for (const QuantityProblem& problem : {problem_of(parse_elevation(text)),
                                           problem_of(parse_flow(text)),
                                           problem_of(parse_temperature(text)),
                                           problem_of(parse_duration(text)),
                                           problem_of(parse_flow_at_pressure(text))}) {
      CHECK(problem.code != "accepted");
      CHECK(problem.text.size() < 250);
    }
  }
}
