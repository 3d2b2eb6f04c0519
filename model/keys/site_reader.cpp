#include "model/keys/site_reader.h"

#include <array>

#include "model/keys/dated_record.h"
#include "model/keys/map_position_reader.h"

namespace leat::model {

Site read_site(const YamlNode& node, SourcePosition key, LoadContext& context) {
  ProblemList& problems = context.problems;
  static constexpr std::array<std::string_view, 5> keys = {
      "altitude", "water", "air pressure", "latitude", "map origin"};
  const MapReader map(node, Subject{"site", key}, keys, problems);
  Site site;
  if (const YamlNode* const value = map.find("altitude")) {
    const Range<Elevation> range{
        elevation_metres(-500.0), elevation_metres(9000.0), "from -500 m to 9000 m", true};
    const auto altitude =
        read_within(*value, map.part("altitude"), parse_elevation, range, problems);
    if (altitude) {
      site.altitude = *altitude - Elevation();
    }
  }
  if (const YamlNode* const value = map.find("water")) {
    const RecordKind<Temperature> water{"temperature",
                                        "2026-08-14, 14 C",
                                        parse_temperature,
                                        {celsius(0.0), celsius(40.0), "from 0 C to 40 C", true}};
    set_if(site.water,
           read_months_or_record(*value,
                                 map.part("water"),
                                 water,
                                 MonthTakes::Mean,
                                 GapRule::Straight,
                                 context,
                                 site.water_record));
  }
  if (const YamlNode* const value = map.find("air pressure")) {
    const Range<Pressure> range{
        kilopascals(10.0), kilopascals(200.0), "from 10 kPa to 200 kPa", true};
    site.air_pressure =
        read_within(*value, map.part("air pressure"), parse_pressure, range, problems);
  }
  if (const YamlNode* const value = map.find("latitude")) {
    const Range<double> range{-90.0, 90.0, "from -90 to 90 degrees", true};
    site.latitude_degrees =
        read_within(*value, map.part("latitude"), parse_number, range, problems);
  }
  if (const YamlNode* const value = map.find("map origin")) {
    site.map_origin = read_map_origin(*value, map.part("map origin"), problems);
  }
  return site;
}

}  // namespace leat::model
