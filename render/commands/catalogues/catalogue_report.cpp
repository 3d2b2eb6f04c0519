#include "render/commands/catalogues/catalogue_report.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "model/catalogue/fitting_catalogue.h"
#include "model/catalogue/herd_catalogue.h"
#include "model/catalogue/pipe_catalogue.h"
#include "render/commands/solve/csv_report.h"
#include "render/document/json_text.h"
#include "render/document/text_table.h"
#include "render/io/terminal_style.h"
#include "render/words/number_text.h"

namespace leat::render {

namespace {

using Row = std::vector<std::string>;

/// Sources are long and shared by many rows: they are numbered, and listed under the table.
class SourceList {
 public:
  std::string number_of(const std::string& source) {
    const auto found = std::find(sources_.begin(), sources_.end(), source);
    const auto index = static_cast<std::size_t>(found - sources_.begin());
    if (found == sources_.end()) {
      sources_.push_back(source);
    }
    return fmt::format("[{}]", index + 1);
  }
  [[nodiscard]] std::string text() const {
    std::string text = "\nSources\n";
    for (std::size_t i = 0; i < sources_.size(); ++i) {
      const std::string mark = fmt::format("{:>5} ", fmt::format("[{}]", i + 1));
      text += wrapped(mark + sources_[i], widest_text, 6);
    }
    return text;
  }

 private:
  std::vector<std::string> sources_;  // in order of first use
};

/// A catalogue in SI: keys as headings, one row an entry. A cell that holds no value is null.
struct Listing {
  std::string_view command;
  std::vector<std::string> keys;
  std::vector<std::vector<Json>> rows;
};

std::string listing_csv(const Listing& listing) {
  std::string text = csv_line(listing.keys);
  for (const std::vector<Json>& row : listing.rows) {
    Row cells;
    for (const Json& value : row) {
      cells.push_back(csv_cell(value));
    }
    text += csv_line(cells);
  }
  return text;
}

std::string listing_json(const Listing& listing) {
  Json object;
  object["format"] = 1;
  object["command"] = listing.command;
  Json& rows = object[std::string(listing.command)] = Json::array();
  for (const std::vector<Json>& row : listing.rows) {
    Json entry;
    for (std::size_t i = 0; i < row.size(); ++i) {
      entry[listing.keys[i]] = row[i];
    }
    rows.push_back(std::move(entry));
  }
  return json_text(object);
}

Json millimetres_json(const std::optional<Length>& length) {
  return length ? json_number(in_millimetres(*length)) : Json(nullptr);
}

Json kilopascals_json(const std::optional<Pressure>& pressure) {
  return pressure ? json_number(pressure->in_si() / 1e3) : Json(nullptr);
}

const char* material_word(model::PipeMaterial material) {
  switch (material) {
    case model::PipeMaterial::Polyethylene:
      return "polyethylene";
    case model::PipeMaterial::Pvc:
      return "PVC";
    case model::PipeMaterial::Steel:
      return "steel";
    case model::PipeMaterial::Hose:
      return "hose";
    case model::PipeMaterial::SuctionHose:
      return "suction hose";
    case model::PipeMaterial::Unknown:
      return "unknown";
  }
  return "unknown";
}

Listing pipe_listing() {
  Listing listing{"pipes",
                  {"size",
                   "system",
                   "material",
                   "bore_mm",
                   "wall_mm",
                   "outside_diameter_mm",
                   "roughness_mm",
                   "rating_kPa",
                   "rating_assumed",
                   "modulus_kPa",
                   "source"},
                  {}};
  for (const model::CataloguePipe& pipe : model::pipe_catalogue()) {
    const model::PipeSize& size = pipe.size;
    listing.rows.push_back({size.text,
                            pipe.system,
                            material_word(size.material),
                            millimetres_json(size.bore),
                            millimetres_json(size.wall),
                            millimetres_json(size.outside_diameter),
                            millimetres_json(size.roughness),
                            kilopascals_json(size.rating),
                            size.rating_assumed,
                            kilopascals_json(size.modulus),
                            pipe.source});
  }
  return listing;
}

std::string pipe_table(model::UnitSystem units) {
  SourceList sources;
  std::vector<Row> rows;
  for (const model::CataloguePipe& pipe : model::pipe_catalogue()) {
    const model::PipeSize& size = pipe.size;
    const std::string rating = size.rating ? pressure_number_text(*size.rating, units) : "-";
    rows.push_back({size.text,
                    bore_number_text(size.bore, model::UnitSystem::Metric),
                    bore_number_text(size.bore, model::UnitSystem::Us),
                    size.wall ? bore_number_text(*size.wall, units) : "-",
                    decimal_text(in_millimetres(size.roughness), 4),
                    rating,
                    size.rating_assumed ? "lowest sold" : "",
                    sources.number_of(pipe.source)});
  }
  const std::vector<Column> columns = {
      {"size", Align::Left},
      {"bore mm", Align::Right},
      {"bore in", Align::Right},
      {fmt::format("wall {}", bore_unit(units)), Align::Right},
      {"roughness mm", Align::Right},
      {fmt::format("rating {}", pressure_unit(units)), Align::Right},
      {"", Align::Left},
      {"source", Align::Left}};
  return table_text(columns, rows) + sources.text();
}

const char* place_word(model::Placement::Where where) {
  switch (where) {
    case model::Placement::Where::Spread:
      return "spread";
    case model::Placement::Where::Start:
      return "start";
    case model::Placement::Where::End:
      return "end";
    case model::Placement::Where::AtDistance:
      return "distance";
  }
  return "spread";
}

Json velocity_json(const std::optional<Velocity>& velocity) {
  return velocity ? json_number(in_metres_per_second(*velocity)) : Json(nullptr);
}

/// The bore lifting velocities and K are shown at: 1 in schedule 40, the C1 row nearest 1 in.
constexpr Length shown_bore = millimetres(26.6);

/// K of one piece there; none for a change of bore, whose K needs both bores.
std::optional<double> k_at_shown_bore(const model::CatalogueFitting& fitting) {
  const double k = model::loss_coefficient(fitting, shown_bore);
  const bool is_fixed = fitting.k || fitting.n_ft;
  return is_fixed || k > 0.0 ? std::optional(k) : std::nullopt;
}

Listing fitting_listing() {
  Listing listing{"fittings",
                  {"name",
                   "k",
                   "n_ft",
                   "k_at_26_6_mm",
                   "one_way",
                   "lifting_velocity_at_26_6_mm_m_s",
                   "opening_head_m",
                   "default_place",
                   "source"},
                  {}};
  for (const model::CatalogueFitting& fitting : model::fitting_catalogue()) {
    listing.rows.push_back({fitting.name,
                            json_number(fitting.k),
                            json_number(fitting.n_ft),
                            json_number(k_at_shown_bore(fitting)),
                            fitting.one_way,
                            velocity_json(model::lifting_velocity(fitting, shown_bore)),
                            json_number(in_metres(fitting.opening_head)),
                            place_word(fitting.default_place),
                            fitting.source});
  }
  return listing;
}

std::string fitting_table(model::UnitSystem units) {
  SourceList sources;
  std::vector<Row> rows;
  for (const model::CatalogueFitting& fitting : model::fitting_catalogue()) {
    const std::optional<Velocity> lifting = model::lifting_velocity(fitting, shown_bore);
    const std::optional<double> shown_k = k_at_shown_bore(fitting);
    rows.push_back({fitting.name,
                    shown_k ? decimal_text(*shown_k, 2) : "by bore",
                    fitting.n_ft ? significant_text(*fitting.n_ft) : "-",
                    fitting.one_way ? "one-way" : "both ways",
                    lifting ? velocity_number_text(*lifting, units) : "-",
                    place_word(fitting.default_place),
                    sources.number_of(fitting.source)});
  }
  const std::vector<Column> columns = {
      {"fitting", Align::Left},
      {"K at 26.6 mm", Align::Right},
      {"n of n fT", Align::Right},
      {"passes", Align::Left},
      {fmt::format("lifts at {}", velocity_unit(units)), Align::Right},
      {"stands at", Align::Left},
      {"source", Align::Left}};
  return table_text(columns, rows) + sources.text();
}

Listing herd_listing() {
  Listing listing{"herd", {"animal", "heads", "air_C", "per_day_L", "summer_row", "source"}, {}};
  for (const model::CatalogueAnimal& animal : model::herd_catalogue()) {
    for (std::size_t i = 0; i < animal.rows.size(); ++i) {
      const model::HerdRow& row = animal.rows[i];
      const Json air = animal.rows.size() > 1 ? json_number(in_celsius(row.air)) : Json(nullptr);
      listing.rows.push_back({animal.name,
                              animal.heads_per_unit,
                              air,
                              json_number(in_litres(row.per_head_per_day) * animal.heads_per_unit),
                              i == animal.summer_row,
                              animal.source});
    }
  }
  return listing;
}

std::string herd_table(model::UnitSystem units) {
  SourceList sources;
  std::vector<Row> rows;
  for (const model::CatalogueAnimal& animal : model::herd_catalogue()) {
    for (std::size_t i = 0; i < animal.rows.size(); ++i) {
      const model::HerdRow& row = animal.rows[i];
      const std::string name = animal.heads_per_unit > 1
                                   ? fmt::format("{} (per {})", animal.name, animal.heads_per_unit)
                                   : animal.name;
      const bool is_by_air = animal.rows.size() > 1;
      rows.push_back({i == 0 ? name : "",
                      is_by_air ? temperature_number_text(row.air, units) : "any",
                      volume_number_text(row.per_head_per_day * animal.heads_per_unit, units),
                      is_by_air && i == animal.summer_row ? "used when the air is not given" : "",
                      i == 0 ? sources.number_of(animal.source) : ""});
    }
  }
  const std::vector<Column> columns = {
      {"stock", Align::Left},
      {fmt::format("air {}", temperature_unit(units)), Align::Right},
      {fmt::format("{} a day", volume_unit(units)), Align::Right},
      {"", Align::Left},
      {"source", Align::Left}};
  return table_text(columns, rows) + sources.text();
}

}  // namespace

std::string pipes_text(AnswerForm form, model::UnitSystem units) {
  if (form == AnswerForm::Json) {
    return listing_json(pipe_listing());
  }
  return form == AnswerForm::Screen ? pipe_table(units) : listing_csv(pipe_listing());
}

std::string fittings_text(AnswerForm form, model::UnitSystem units) {
  if (form == AnswerForm::Json) {
    return listing_json(fitting_listing());
  }
  return form == AnswerForm::Screen ? fitting_table(units) : listing_csv(fitting_listing());
}

std::string herd_text(AnswerForm form, model::UnitSystem units) {
  if (form == AnswerForm::Json) {
    return listing_json(herd_listing());
  }
  return form == AnswerForm::Screen ? herd_table(units) : listing_csv(herd_listing());
}

}  // namespace leat::render
