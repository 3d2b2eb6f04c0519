#include "model/keys/site.h"

#include "model/keys/kinds.h"
#include "model/keys/map_position_reader.h"

namespace leat::model {
namespace {

constexpr Range<Elevation> altitude_range{
    elevation_metres(-500.0), elevation_metres(9000.0), "from -500 m to 9000 m", true};
constexpr Range<Pressure> air_pressure_range{
    kilopascals(10.0), kilopascals(200.0), "from 10 kPa to 200 kPa", true};
constexpr Range<double> site_latitude_range{-90.0, 90.0, "from -90 to 90 degrees", true};
constexpr RecordKind<Temperature> water_record{
    "temperature",
    "2026-08-14, 14 C",
    parse_temperature,
    {celsius(0.0), celsius(40.0), "from 0 C to 40 C", true}};

bool read_altitude(const KeyValue& value, Site& site) {
  const auto altitude =
      read_within(value.node, value.what, parse_elevation, altitude_range, value.problems());
  if (altitude) {
    site.altitude = *altitude - Elevation();
  }
  return altitude.has_value();
}

bool read_origin(const KeyValue& value, Site& site) {
  site.map_origin = read_map_origin(value.node, value.what, value.problems());
  return site.map_origin.has_value();
}

std::vector<Key<Site>> air_and_water_keys() {
  return {
      key<Site>(
          "altitude",
          own(Kind{"level"}, read_altitude),
          {.sentence = "Height above the sea, which gives the air's pressure; 0 m unless given.",
           .examples = {"1350 ft", "420 m"},
           .told = "above sea level, -500 to 9000 m; decides the air's pressure, and so how far a "
                   "siphon lifts",
           .if_absent = "0 m"}),
      key<Site>(
          "water",
          by_month_or_record(
              &Site::water, &Site::water_record, water_record, MonthTakes::Mean, GapRule::Straight),
          {.sentence = "Temperature of the water, 0 to 40 C; may vary by month, or be a CSV file "
                       "of dates. 15 C unless given.",
           .examples = {"55 F", "12 C"},
           .told = "temperature, 0 to 40 C; may vary by month, or a record",
           .if_absent = "15 C"}),
      key<Site>("air pressure",
                quantity(&Site::air_pressure, air_pressure_range),
                {.sentence = "Absolute pressure of the air; from the altitude unless given.",
                 .examples = {"96.4 kPa"},
                 .told = "absolute, 10 to 200 kPa",
                 .if_absent = "from the altitude"})};
}

std::vector<Key<Site>> globe_keys() {
  return {
      key<Site>("latitude",
                number(&Site::latitude_degrees, site_latitude_range),
                {.sentence = "Degrees north of the equator, south negative: for the sun.",
                 .examples = {"47.5"},
                 .told = "degrees, -90 to 90, south negative; for the sun of a season",
                 .if_absent = "no sun reckoned"}),
      key<Site>(
          "map origin",
          own(Kind{"map_origin"}, read_origin),
          {.sentence = "Longitude and latitude of the point [0 m, 0 m] of the farm's own map, such "
                       "as [10.5, 47.5].",
           .told =
               "`[longitude, latitude]` of the zero of `map: [x, y]`, latitude within 85 degrees",
           .if_absent = "-"})};
}

}  // namespace

const Keys<Site>& site_keys() {
  static const Keys<Site> keys({}, joined<Site>({air_and_water_keys(), globe_keys()}));
  return keys;
}

Site read_site(const YamlNode& node, SourcePosition key, LoadContext& context) {
  const MapReader map(node, Subject{"site", key}, site_keys().names(), context.problems);
  Site site;
  site_keys().read(map, site, context);
  return site;
}

}  // namespace leat::model
