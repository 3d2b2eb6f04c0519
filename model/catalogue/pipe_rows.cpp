#include "model/catalogue/pipe_rows.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <utility>

#include <fmt/format.h>

namespace leat::model {
namespace {

/// Absolute roughness [mm]: drawn polyethylene and PVC by the textbooks, hose and galvanised steel
/// from memory (Moody 1944 for the steel).
constexpr double smooth_mm = 0.0015;
constexpr double hose_mm = 0.03;
constexpr double galvanised_mm = 0.15;
/// Suction hose carries a spiral inside: common practice, no source, and doubtful by a factor of 3.
constexpr double suction_hose_mm = 0.3;

/// Moduli of short load [Pa]: PE100 0.75 to 1.25 GPa published, the others from memory.
constexpr double pe100_modulus_pa = 1.0e9;
constexpr double polyethylene_modulus_pa = 0.8e9;
constexpr double pvc_modulus_pa = 3.0e9;
constexpr double steel_modulus_pa = 207.0e9;

/// Hydrostatic design stress of the oldest polyethylene still lying on farms [psi].
constexpr double lowest_design_stress_psi = 625.0;
/// Least walls of the ASTM standards, from memory [in].
constexpr double least_inside_sized_wall_in = 0.060;
constexpr double least_outside_sized_wall_in = 0.062;

/// An inch size: its name, the inside of D2239 pipe and schedule 40 steel, the outside of iron-pipe
/// sizes and of copper-tube sizes, and what schedule 40 PVC is.
struct InchSize {
  std::string_view name;
  double inside_in;
  double iron_outside_in;
  double copper_outside_in;
  double schedule_40_wall_in;
  double pvc_inside_in;
  double pvc_rating_psi;
};

constexpr std::array inch_sizes = {
    InchSize{"1/2", 0.622, 0.840, 0.625, 0.109, 0.602, 600.0},
    InchSize{"3/4", 0.824, 1.050, 0.875, 0.113, 0.804, 480.0},
    InchSize{"1", 1.049, 1.315, 1.125, 0.133, 1.029, 450.0},
    InchSize{"1-1/4", 1.380, 1.660, 1.375, 0.140, 1.360, 370.0},
    InchSize{"1-1/2", 1.610, 1.900, 1.625, 0.145, 1.590, 330.0},
    InchSize{"2", 2.067, 2.375, 2.125, 0.154, 2.047, 280.0},
};

/// A metric size: nominal and greatest mean outside diameter [mm].
struct MetricSize {
  int nominal_mm;
  double greatest_outside_mm;
};

constexpr std::array metric_sizes = {
    MetricSize{20, 20.3},
    MetricSize{25, 25.3},
    MetricSize{32, 32.3},
    MetricSize{40, 40.4},
    MetricSize{50, 50.5},
    MetricSize{63, 63.6},
};

/// One SDR: its walls in the order of `metric_sizes` [mm], 0 where the size is not made (or, for
/// the greatest walls, where our source does not give them), and its pressure classes [bar].
struct MetricSeries {
  std::string_view sdr;
  std::array<double, metric_sizes.size()> least_wall_mm;
  std::array<double, metric_sizes.size()> greatest_wall_mm;
  double pe100_bar;
  double pe80_bar;
};

constexpr std::array metric_series = {
    MetricSeries{"7.4", {3.0, 3.5, 4.4, 5.5, 6.9, 8.6}, {}, 25.0, 20.0},
    MetricSeries{"9", {2.3, 3.0, 3.6, 4.5, 5.6, 7.1}, {}, 20.0, 16.0},
    MetricSeries{"11", {2.0, 2.3, 3.0, 3.7, 4.6, 5.8}, {2.3, 2.7, 3.4, 4.2, 5.2, 6.5}, 16.0, 12.5},
    MetricSeries{
        "13.6", {0.0, 2.0, 2.4, 3.0, 3.7, 4.7}, {0.0, 2.3, 2.8, 3.5, 4.2, 5.3}, 12.5, 10.0},
    MetricSeries{"17", {0.0, 0.0, 2.0, 2.4, 3.0, 3.8}, {0.0, 0.0, 2.3, 2.8, 3.4, 4.3}, 10.0, 8.0},
};

constexpr std::array<double, 5> inside_ratios = {7.0, 9.0, 11.5, 15.0, 19.0};
constexpr std::array<double, 4> outside_ratios = {9.0, 11.0, 13.5, 17.0};

struct HoseSize {
  std::string_view name;
  double inside_in;
};

constexpr std::array hose_sizes = {
    HoseSize{"1/2", 0.5},
    HoseSize{"5/8", 0.625},
    HoseSize{"3/4", 0.75},
    HoseSize{"1", 1.0},
    HoseSize{"1-1/4", 1.25},
    HoseSize{"1-1/2", 1.5},
    HoseSize{"2", 2.0},
};

/// A row with what every pipe of its system has; bore, walls and rating are filled in after.
CataloguePipe row(std::string name, std::string system, PipeMaterial material) {
  CataloguePipe pipe;
  pipe.size.text = std::move(name);
  pipe.system = std::move(system);
  pipe.size.material = material;
  pipe.size.roughness = millimetres(smooth_mm);
  return pipe;
}

CataloguePipe inside_sized(const InchSize& inch, double ratio) {
  CataloguePipe pipe =
      row(fmt::format("{} in SIDR {}", inch.name, ratio), "SIDR", PipeMaterial::Polyethylene);
  const double wall_in = std::max(inch.inside_in / ratio, least_inside_sized_wall_in);
  pipe.size.bore = inches(inch.inside_in);
  pipe.size.wall = inches(wall_in);
  pipe.size.outside_diameter = inches(inch.inside_in + 2.0 * wall_in);
  pipe.size.rating = psi(2.0 * lowest_design_stress_psi / (ratio + 1.0));
  pipe.size.rating_assumed = true;
  pipe.size.modulus = pascals(polyethylene_modulus_pa);
  pipe.source =
      "ASTM D2239 average inside diameter, from memory, least wall 0.060 in, from memory. Rating: "
      "2 HDS/(SIDR + 1) at HDS 625 psi, the lowest sold";
  return pipe;
}

CataloguePipe copper_sized(const InchSize& inch) {
  constexpr double ratio = 9.0;
  constexpr double rating_psi = 200.0;
  CataloguePipe pipe = row(fmt::format("{} in CTS", inch.name), "CTS", PipeMaterial::Polyethylene);
  const double wall_in = std::max(inch.copper_outside_in / ratio, least_outside_sized_wall_in);
  pipe.size.bore = inches(inch.copper_outside_in - 2.0 * wall_in);
  pipe.size.wall = inches(wall_in);
  pipe.size.outside_diameter = inches(inch.copper_outside_in);
  pipe.size.rating = psi(rating_psi);
  pipe.size.rating_assumed = true;
  pipe.size.modulus = pascals(polyethylene_modulus_pa);
  pipe.source =
      "ASTM D2737, DR 9, outside diameter from memory, inside computed. Rating: the 200 psi class "
      "(HDS 800 psi), other resins are sold at 160 and 250 psi, from memory";
  return pipe;
}

CataloguePipe outside_sized(const InchSize& inch, double ratio) {
  // The trade's average inside: the wall as made is 6 % above the least one (ASTM D3035 practice).
  constexpr double walls_across = 2.12;
  CataloguePipe pipe =
      row(fmt::format("{} in DR {}", inch.name, ratio), "DR", PipeMaterial::Polyethylene);
  const double wall_in = std::max(inch.iron_outside_in / ratio, least_outside_sized_wall_in);
  pipe.size.bore = inches(inch.iron_outside_in - walls_across * wall_in);
  pipe.size.wall = inches(wall_in);
  pipe.size.outside_diameter = inches(inch.iron_outside_in);
  pipe.size.rating = psi(2.0 * lowest_design_stress_psi / (ratio - 1.0));
  pipe.size.rating_assumed = true;
  pipe.size.modulus = pascals(polyethylene_modulus_pa);
  pipe.source =
      "ASTM D3035 (F714), outside diameter from memory, average inside OD - 2.12 t, least wall "
      "0.062 in. Rating: 2 HDS/(DR - 1) at HDS 625 psi, the lowest sold";
  return pipe;
}

enum class MetricResin { Pe100, Pe80 };

CataloguePipe metric_sized(MetricResin resin, const MetricSeries& series, std::size_t index) {
  const bool is_pe100 = resin == MetricResin::Pe100;
  const std::string_view resin_name = is_pe100 ? "PE100" : "PE80";
  const MetricSize& size = metric_sizes[index];
  CataloguePipe pipe = row(fmt::format("{} mm {} SDR {}", size.nominal_mm, resin_name, series.sdr),
                           fmt::format("{} SDR", resin_name),
                           PipeMaterial::Polyethylene);
  const double nominal_mm = size.nominal_mm;
  const double least_wall_mm = series.least_wall_mm[index];
  const double greatest_wall_mm = series.greatest_wall_mm[index];
  const bool has_mean = greatest_wall_mm > 0.0;
  const double outside_mm = (nominal_mm + size.greatest_outside_mm) / 2.0;
  pipe.size.bore = millimetres(has_mean ? outside_mm - (least_wall_mm + greatest_wall_mm)
                                        : nominal_mm - 2.0 * least_wall_mm);
  pipe.size.wall = millimetres(least_wall_mm);
  pipe.size.outside_diameter = millimetres(nominal_mm);
  constexpr double pascals_per_bar = 1e5;
  pipe.size.rating = pascals((is_pe100 ? series.pe100_bar : series.pe80_bar) * pascals_per_bar);
  pipe.size.modulus = pascals(is_pe100 ? pe100_modulus_pa : polyethylene_modulus_pa);
  pipe.source = has_mean ? "ISO 4427-2:2007 / EN 12201-2, mean bore: mean outside less least and "
                           "greatest wall. Rating: the class sold"
                         : "ISO 4427-2:2007 / EN 12201-2, nominal bore dn - 2e (the greatest wall "
                           "is not at hand: the mean bore is 1 to 2 % less). Rating: the class "
                           "sold, from memory";
  return pipe;
}

CataloguePipe schedule_40_pvc(const InchSize& inch) {
  CataloguePipe pipe =
      row(fmt::format("{} in sch 40 PVC", inch.name), "sch 40 PVC", PipeMaterial::Pvc);
  pipe.size.bore = inches(inch.pvc_inside_in);
  pipe.size.wall = inches(inch.schedule_40_wall_in);
  pipe.size.outside_diameter = inches(inch.iron_outside_in);
  pipe.size.rating = psi(inch.pvc_rating_psi);
  pipe.size.modulus = pascals(pvc_modulus_pa);
  pipe.source = "ASTM D1785, average bore, least wall and rating at 23 C, all from memory";
  return pipe;
}

CataloguePipe schedule_40_steel(const InchSize& inch) {
  CataloguePipe pipe =
      row(fmt::format("{} in sch 40 steel", inch.name), "sch 40 steel", PipeMaterial::Steel);
  pipe.size.bore = inches(inch.inside_in);
  pipe.size.wall = inches(inch.schedule_40_wall_in);
  pipe.size.outside_diameter = inches(inch.iron_outside_in);
  pipe.size.roughness = millimetres(galvanised_mm);
  pipe.size.modulus = pascals(steel_modulus_pa);
  pipe.source =
      "ASME B36.10M schedule 40, galvanised, from memory. No rating listed: its threads and age "
      "decide, far above the pressures of a gravity farm";
  return pipe;
}

CataloguePipe hose(const HoseSize& hose_size) {
  CataloguePipe pipe = row(fmt::format("{} in hose", hose_size.name), "hose", PipeMaterial::Hose);
  pipe.size.bore = inches(hose_size.inside_in);
  pipe.size.roughness = millimetres(hose_mm);
  pipe.source = "nominal bore; roughness of smooth rubber hose 0.01 to 0.03 mm, from memory";
  return pipe;
}

CataloguePipe suction_hose(const HoseSize& hose_size) {
  CataloguePipe pipe = row(
      fmt::format("{} in suction hose", hose_size.name), "suction hose", PipeMaterial::SuctionHose);
  pipe.size.bore = inches(hose_size.inside_in);
  pipe.size.roughness = millimetres(suction_hose_mm);
  pipe.source = "nominal bore; roughness of a spiral lining 0.3 mm: common practice, no source";
  return pipe;
}

}  // namespace

std::vector<CataloguePipe> make_pipe_rows() {
  std::vector<CataloguePipe> pipes;
  for (const double ratio : inside_ratios) {
    for (const InchSize& inch : inch_sizes) {
      pipes.push_back(inside_sized(inch, ratio));
    }
  }
  for (const InchSize& inch : inch_sizes) {
    pipes.push_back(copper_sized(inch));
  }
  for (const double ratio : outside_ratios) {
    for (const InchSize& inch : std::span(inch_sizes).subspan(1)) {
      pipes.push_back(outside_sized(inch, ratio));
    }
  }
  for (const MetricResin resin : {MetricResin::Pe100, MetricResin::Pe80}) {
    for (const MetricSeries& series : metric_series) {
      for (std::size_t i = 0; i < metric_sizes.size(); ++i) {
        if (series.least_wall_mm[i] > 0.0) {
          pipes.push_back(metric_sized(resin, series, i));
        }
      }
    }
  }
  for (const InchSize& inch : inch_sizes) {
    pipes.push_back(schedule_40_pvc(inch));
  }
  for (const InchSize& inch : inch_sizes) {
    pipes.push_back(schedule_40_steel(inch));
  }
  for (const HoseSize& hose_size : hose_sizes) {
    pipes.push_back(hose(hose_size));
  }
  for (const HoseSize& hose_size : hose_sizes) {
    pipes.push_back(suction_hose(hose_size));
  }
  return pipes;
}

}  // namespace leat::model
