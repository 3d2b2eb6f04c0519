#include "render/commands/catalogues/catalogue_report.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "render/commands/catalogues/catalogue_columns.h"
#include "render/io/terminal_style.h"
#include "render/words/number_text.h"

namespace leat::render {

namespace {

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
  /// The table's last column: the number of a row's source, nothing for an empty one.
  template <class Row>
  Shown<Row> column(std::string (*source)(const Row&)) {
    return {"source", "source", [this, source](const Row& row, model::UnitSystem) {
              const std::string found = source(row);
              return found.empty() ? found : number_of(found);
            }};
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

/// A catalogue in SI.
template <class Row>
struct Listing {
  const char* command;
  const Columns<Row>& columns;
  std::vector<Row> rows;
};

template <class Row>
std::string listing_csv(const Listing<Row>& listing) {
  return csv_text(listing.columns, listing.rows);
}

template <class Row>
std::string listing_json(const Listing<Row>& listing) {
  Json object;
  object["format"] = 1;
  object["command"] = listing.command;
  object[listing.command] = json_rows(listing.columns, listing.rows);
  return json_text(object);
}

Listing<model::CataloguePipe> pipe_listing() {
  return {"pipes", catalogue_pipe_columns(), model::pipe_catalogue()};
}

Listing<model::CatalogueFitting> fitting_listing() {
  return {"fittings", catalogue_fitting_columns(), model::fitting_catalogue()};
}

Listing<HerdCatalogueRow> herd_listing() {
  return {"herd", catalogue_herd_columns(), herd_catalogue_rows()};
}

template <class Row>
std::string sourced_table(const Columns<Row>& columns,
                          const std::vector<Shown<Row>>& shown,
                          const std::vector<Row>& rows,
                          model::UnitSystem units,
                          const SourceList& sources) {
  const TextTable table = table_of(columns, shown, rows, units);
  return table_text(table.columns, table.rows) + sources.text();
}

std::string pipe_table(model::UnitSystem units) {
  using Pipe = model::CataloguePipe;
  SourceList sources;
  const auto bore_in = [](model::UnitSystem read_in) {
    return [read_in](const Pipe& pipe, model::UnitSystem) {
      return bore_number_text(pipe.size.bore, read_in);
    };
  };
  const std::vector<Shown<Pipe>> shown = {
      {"size", "size"},
      {"bore mm", "bore_mm", bore_in(model::UnitSystem::Metric)},
      {"bore in", "bore_mm", bore_in(model::UnitSystem::Us)},
      {fmt::format("wall {}", bore_unit(units)),
       "wall_mm",
       [](const Pipe& pipe, model::UnitSystem read_in) {
         return pipe.size.wall ? bore_number_text(*pipe.size.wall, read_in) : "-";
       }},
      {"roughness mm",
       "roughness_mm",
       [](const Pipe& pipe, model::UnitSystem) {
         return decimal_text(in_millimetres(pipe.size.roughness), 4);
       }},
      {fmt::format("rating {}", pressure_unit(units)), "rating_kPa"},
      {"",
       "rating_assumed",
       [](const Pipe& pipe, model::UnitSystem) {
         return pipe.size.rating_assumed ? "lowest sold" : "";
       }},
      sources.column<Pipe>([](const Pipe& pipe) { return pipe.source; })};
  return sourced_table(catalogue_pipe_columns(), shown, model::pipe_catalogue(), units, sources);
}

std::string fitting_table(model::UnitSystem units) {
  using Fitting = model::CatalogueFitting;
  SourceList sources;
  const std::vector<Shown<Fitting>> shown = {
      {"fitting", "name"},
      {"K at 26.6 mm",
       "k_at_26_6_mm",
       [](const Fitting& fitting, model::UnitSystem) {
         const std::optional<double> k = k_at_shown_bore(fitting);
         return k ? decimal_text(*k, 2) : "by bore";
       }},
      {"n of n fT",
       "n_ft",
       [](const Fitting& fitting, model::UnitSystem) {
         return fitting.n_ft ? significant_text(*fitting.n_ft) : "-";
       }},
      {"passes",
       "one_way",
       [](const Fitting& fitting, model::UnitSystem) {
         return fitting.one_way ? "one-way" : "both ways";
       }},
      {fmt::format("lifts at {}", velocity_unit(units)), "lifting_velocity_at_26_6_mm_m_s"},
      {"stands at", "default_place"},
      sources.column<Fitting>([](const Fitting& fitting) { return fitting.source; })};
  return sourced_table(
      catalogue_fitting_columns(), shown, model::fitting_catalogue(), units, sources);
}

std::string herd_table(model::UnitSystem units) {
  using Herd = HerdCatalogueRow;
  SourceList sources;
  const std::vector<Shown<Herd>> shown = {
      {"stock",
       "animal",
       [](const Herd& row, model::UnitSystem) {
         const model::CatalogueAnimal& animal = row.animal;
         const std::string name =
             animal.heads_per_unit > 1
                 ? fmt::format("{} (per {})", animal.name, animal.heads_per_unit)
                 : animal.name;
         return row.index == 0 ? name : "";
       }},
      {fmt::format("air {}", temperature_unit(units)),
       "air_C",
       [](const Herd& row, model::UnitSystem read_in) {
         return row.is_by_air() ? temperature_number_text(row.row().air, read_in) : "any";
       }},
      {fmt::format("{} a day", volume_unit(units)), "per_day_L"},
      {"",
       "summer_row",
       [](const Herd& row, model::UnitSystem) {
         return row.is_by_air() && row.index == row.animal.summer_row
                    ? "used when the air is not given"
                    : "";
       }},
      sources.column<Herd>(
          [](const Herd& row) { return row.index == 0 ? row.animal.source : std::string(); })};
  return sourced_table(catalogue_herd_columns(), shown, herd_catalogue_rows(), units, sources);
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
