#include "render/commands/catalogues/catalogue_columns.h"

namespace leat::render {

namespace {

/// A catalogue's figures are kept finer than an answer's.
constexpr Scale figure = scale::ratio.with_decimals(usual_csv_decimals);
constexpr Scale pressure = scale::pressure.with_decimals(usual_csv_decimals);

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

}  // namespace

std::vector<HerdCatalogueRow> herd_catalogue_rows() {
  std::vector<HerdCatalogueRow> rows;
  for (const model::CatalogueAnimal& animal : model::herd_catalogue()) {
    for (std::size_t i = 0; i < animal.rows.size(); ++i) {
      rows.push_back({animal, i});
    }
  }
  return rows;
}

std::optional<double> k_at_shown_bore(const model::CatalogueFitting& fitting) {
  const double k = model::loss_coefficient(fitting, shown_bore);
  const bool is_fixed = fitting.k || fitting.n_ft;
  return is_fixed || k > 0.0 ? std::optional(k) : std::nullopt;
}

const Columns<model::CataloguePipe>& catalogue_pipe_columns() {
  using model::CataloguePipe;
  using Pipe = Column<CataloguePipe>;
  static const Columns<CataloguePipe> columns = {
      Pipe::value(
          "size", [](const CataloguePipe& pipe) { return pipe.size.text; }, "name in the file"),
      Pipe::value("system", &CataloguePipe::system, "the standard's family"),
      Pipe::value(
          "material",
          [](const CataloguePipe& pipe) { return material_word(pipe.size.material); },
          "polyethylene, PVC, steel, hose"),
      Pipe::number(
          "bore_mm", scale::bore, [](const CataloguePipe& pipe) { return pipe.size.bore.in_si(); }),
      Pipe::number(
          "wall_mm", scale::bore, [](const CataloguePipe& pipe) { return si_of(pipe.size.wall); }),
      Pipe::number("outside_diameter_mm",
                   scale::bore,
                   [](const CataloguePipe& pipe) { return si_of(pipe.size.outside_diameter); }),
      Pipe::number(
          "roughness_mm",
          scale::bore,
          [](const CataloguePipe& pipe) { return pipe.size.roughness.in_si(); },
          "null where not known"),
      Pipe::number("rating_kPa",
                   pressure,
                   [](const CataloguePipe& pipe) { return si_of(pipe.size.rating); }),
      Pipe::value(
          "rating_assumed",
          [](const CataloguePipe& pipe) { return pipe.size.rating_assumed; },
          "the one sold, or the lowest where it is sold in several"),
      Pipe::number(
          "modulus_kPa",
          pressure,
          [](const CataloguePipe& pipe) { return si_of(pipe.size.modulus); },
          "of the wall under short load"),
      Pipe::value("source", &CataloguePipe::source, "standard and table, or \"from memory\""),
  };
  return columns;
}

const Columns<model::CatalogueFitting>& catalogue_fitting_columns() {
  using model::CatalogueFitting;
  using Fitting = Column<CatalogueFitting>;
  static const Columns<CatalogueFitting> columns = {
      Fitting::value("name", &CatalogueFitting::name, "as written in the file"),
      Fitting::number("k", figure, &CatalogueFitting::k),
      Fitting::number("n_ft",
                      figure,
                      &CatalogueFitting::n_ft,
                      "a K of its own, or n of n fT; null for the other"),
      Fitting::number(
          "k_at_26_6_mm",
          figure,
          [](const CatalogueFitting& fitting) { return k_at_shown_bore(fitting); },
          "K in 1 in pipe, whose bore is 26.6 mm"),
      Fitting::value("one_way", &CatalogueFitting::one_way, "water passes one way only"),
      Fitting::number(
          "lifting_velocity_at_26_6_mm_m_s",
          scale::velocity.with_decimals(usual_csv_decimals),
          [](const CatalogueFitting& fitting) {
            return si_of(model::lifting_velocity(fitting, shown_bore));
          },
          "below it a foot valve does not lift fully; null for all else"),
      Fitting::number(
          "opening_head_m",
          figure,
          [](const CatalogueFitting& fitting) { return in_metres(fitting.opening_head); },
          "head that opens a spring check"),
      Fitting::value(
          "default_place",
          [](const CatalogueFitting& fitting) { return place_word(fitting.default_place); }),
      Fitting::value(
          "source", &CatalogueFitting::source, "start, end or spread; where its figure is from"),
  };
  return columns;
}

const Columns<HerdCatalogueRow>& catalogue_herd_columns() {
  using Herd = Column<HerdCatalogueRow>;
  static const Columns<HerdCatalogueRow> columns = {
      Herd::value("animal", [](const HerdCatalogueRow& row) { return row.animal.name; }),
      Herd::value(
          "heads",
          [](const HerdCatalogueRow& row) { return row.animal.heads_per_unit; },
          "kind of stock, and how many the row is for"),
      Herd::number(
          "air_C",
          figure,
          [](const HerdCatalogueRow& row) {
            return row.is_by_air() ? std::optional(in_celsius(row.row().air)) : std::nullopt;
          },
          "null where the amount does not depend on it"),
      Herd::number(
          "per_day_L",
          scale::litres.with_decimals(usual_csv_decimals),
          [](const HerdCatalogueRow& row) { return row.per_day().in_si(); },
          "for that many heads"),
      Herd::value("summer_row",
                  [](const HerdCatalogueRow& row) { return row.index == row.animal.summer_row; }),
      Herd::value(
          "source",
          [](const HerdCatalogueRow& row) { return row.animal.source; },
          "used when the file gives no air temperatures; where it is from"),
  };
  return columns;
}

}  // namespace leat::render
