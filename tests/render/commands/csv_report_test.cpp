#include "render/commands/solve/csv_report.h"

#include <limits>

#include <catch2/catch.hpp>

#include "tests/render/sample_farm.h"

namespace leat::render {

TEST_CASE("a cell with a comma, a quote or a line break is quoted as RFC 4180 says",
          "[reference]") {
  // RFC 4180, section 2, rules 5 to 7.
  CHECK(csv_line({"plain", "a,b", "say \"so\"", "two\nlines", ""}) ==
        "plain,\"a,b\",\"say \"\"so\"\"\",\"two\nlines\",\n");
}

TEST_CASE("the places as CSV carry the JSON's keys, and empty cells for what is absent") {
  CHECK(places_csv(sample_farm(), sample_answer()) ==
        "name,kind,elevation_m,head_m,level_m,pressure_kPa,delivered_L_s,need_L_s,met,spill_L_s,"
        "state\n"
        "upper,spring,40.0000,40.0000,40.0000,,-0.210000,,,0.290000,ok\n"
        "gate tee,tee,34.0000,33.5000,,-4.900,0.000000,,,,suction\n"
        "north,trough,32.9000,33.4000,,4.900,0.050000,0.150000,0.3300,,starved\n"
        "house pond,pond,30.0000,30.0000,30.0000,,0.160000,,,,ok\n");
}

TEST_CASE("the pipes as CSV hold their worst summit flattened") {
  CHECK(pipes_csv(sample_farm(), sample_answer()) ==
        "name,from,to,flow_L_s,velocity_m_s,reynolds,head_loss_m,lowest_pressure_kPa,lowest_at_m,"
        "highest_pressure_kPa,part_full_m,summit_at_m,summit_elevation_m,summit_absolute_head_m,"
        "summit_margin_m,summit_parted,state\n"
        "main,upper,gate tee,0.210000,0.3800,8900,6.5000,-12.100,36.6000,4.900,0.0000,36.6000,"
        "40.8000,8.6000,8.4000,false,suction\n"
        "to north,gate tee,north,0.000000,0.0000,0,0.0000,,,,0.0000,,,,,,still\n"
        "to pond,gate tee,house pond,0.000000,0.0000,0,0.0000,,,,0.0000,,,,,,still\n");
}

TEST_CASE("the flags as CSV keep their sentence in one cell") {
  solver::SteadyAnswer answer = sample_answer();
  answer.flags[0].where = "north, the high one";
  answer.flags[0].detail = solver::CutOffFromWater{};
  answer.flags[0].limit = std::numeric_limits<double>::quiet_NaN();
  CHECK(flags_csv(answer.flags, model::UnitSystem::Us) ==
        "code,severity,where,text,value,limit,unit,case\n"
        "starved,caution,\"north, the high one\",\"north, the high one is cut off: no open way "
        "joins it to water\",0.3300,,,needs\n");
}

}  // namespace leat::render
