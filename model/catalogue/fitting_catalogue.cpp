#include "model/catalogue/fitting_catalogue.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <utility>

#include "model/catalogue/catalogue_name.h"

namespace leat::model {
namespace {

/// A point of a table read straight between its points.
struct Point {
  double x;
  double y;
};

/// The table's value at `x`, constant outside. The points rise in x.
double straight_between(std::span<const Point> points, double x) {
  if (x <= points.front().x) {
    return points.front().y;
  }
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (x <= points[i].x) {
      const double share = (x - points[i - 1].x) / (points[i].x - points[i - 1].x);
      return points[i - 1].y + share * (points[i].y - points[i - 1].y);
    }
  }
  return points.back().y;
}

/// fT by bore [mm]: Crane TP-410, sheet A-26, for 1/2 .. 3 in schedule 40 (reference C1).
constexpr std::array ft_points = {Point{15.8, 0.027},
                                  Point{20.9, 0.025},
                                  Point{26.6, 0.023},
                                  Point{35.1, 0.022},
                                  Point{40.9, 0.021},
                                  Point{52.5, 0.019},
                                  Point{77.9, 0.018}};

/// Bore of an insert coupler's barb over the pipe's bore, by the pipe's bore [in] (reference C3;
/// barb bores assumed).
constexpr std::array barb_points = {Point{0.824, 0.63 / 0.824},
                                    Point{1.049, 0.85 / 1.049},
                                    Point{1.380, 1.17 / 1.380},
                                    Point{1.610, 1.37 / 1.610},
                                    Point{2.067, 1.80 / 2.067}};

constexpr std::string_view coupler_name = "coupler";
/// Rows named so are there to be listed; the loader reads the bore out of the written text.
constexpr std::string_view bore_word = "BORE";

/// K of part-open valves by how far they are open (Weisbach, from memory), least opening first.
constexpr std::array gate_points = {Point{1.0 / 8.0, 98.0},
                                    Point{2.0 / 8.0, 17.0},
                                    Point{3.0 / 8.0, 5.52},
                                    Point{4.0 / 8.0, 2.06},
                                    Point{5.0 / 8.0, 0.81},
                                    Point{6.0 / 8.0, 0.26},
                                    Point{7.0 / 8.0, 0.07}};
/// The ball's table is by degrees closed: open = 1 - degrees / 90.
constexpr std::array ball_points = {Point{3.0 / 9.0, 206.0},
                                    Point{4.0 / 9.0, 53.0},
                                    Point{5.0 / 9.0, 17.0},
                                    Point{6.0 / 9.0, 5.5},
                                    Point{7.0 / 9.0, 1.56},
                                    Point{8.0 / 9.0, 0.29}};
constexpr double open_gate_n = 8.0;
constexpr double open_ball_n = 3.0;

/// Specific volume of water in the lifting formula [ft3/lb].
constexpr double specific_volume_ft3_lb = 1.0 / 62.4;
/// Where a spring check begins to open: the middle of 0.2 to 0.5 psi, from memory.
constexpr double spring_opening_psi = 0.35;
constexpr double water_weight_n_m3 = 1000.0 * gravity_m_s2;

CatalogueFitting by_n(std::string name, double n, std::string source) {
  CatalogueFitting fitting;
  fitting.name = std::move(name);
  fitting.n_ft = n;
  fitting.source = std::move(source);
  return fitting;
}

CatalogueFitting by_k(std::string name, double k, std::string source) {
  CatalogueFitting fitting;
  fitting.name = std::move(name);
  fitting.k = k;
  fitting.source = std::move(source);
  return fitting;
}

/// A fitting whose K comes from its bore by a formula of its own.
CatalogueFitting by_bore(std::string name, std::string source) {
  CatalogueFitting fitting;
  fitting.name = std::move(name);
  fitting.source = std::move(source);
  return fitting;
}

CatalogueFitting one_way(CatalogueFitting fitting) {
  fitting.one_way = true;
  return fitting;
}

CatalogueFitting foot_valve(std::string name, double n, double lifting_n, std::string source) {
  CatalogueFitting fitting = one_way(by_n(std::move(name), n, std::move(source)));
  fitting.foot_valve = true;
  fitting.lifting_n = lifting_n;
  fitting.default_place = Placement::Where::Start;
  return fitting;
}

CatalogueFitting spring_check() {
  CatalogueFitting fitting = one_way(by_k(
      "spring check",
      5.0,
      "in-line spring kind: K 2 to 10 and opening at 0.2 to 0.5 psi (0.35 taken), from memory"));
  fitting.opening_head = metres(spring_opening_psi * pascals_per_psi / water_weight_n_m3);
  return fitting;
}

CatalogueFitting strainer() {
  CatalogueFitting fitting =
      by_k("strainer",
           1.0,
           "clean, beside the entrance loss: K 0.5 to 1.5, double or more when weedy, from memory");
  fitting.default_place = Placement::Where::Start;
  return fitting;
}

CatalogueFitting at_its(Placement::Where end, CatalogueFitting fitting) {
  fitting.default_place = end;
  return fitting;
}

std::vector<CatalogueFitting> all_fittings() {
  const std::string crane = "Crane TP-410, n fT";
  const std::string crane_memory = crane + ", n from memory";
  const std::string lifting = ", strainer included; lifting speed n sqrt(v), n from memory";
  return {
      by_n("elbow", 30.0, crane_memory + " (90 degrees, threaded)"),
      by_n("45 elbow", 16.0, crane_memory + " (threaded)"),
      by_n("tee run", 20.0, crane_memory + " (straight through)"),
      by_n("tee branch", 60.0, crane_memory + " (round the corner)"),
      by_bore("coupler",
              "insert coupler: contraction into the barb and expansion out of it, "
              "(0.5 (1 - b^2) + (1 - b^2)^2) / b^4 with b = barb bore over pipe bore; barb bores "
              "assumed, no published table found"),
      by_n("gate valve", open_gate_n, crane + ", sheet A-26 (fully open)"),
      by_n("ball valve", open_ball_n, crane + " (full bore, fully open)"),
      by_n("globe valve", 340.0, crane + " (fully open)"),
      by_n("angle valve", 150.0, crane + " (fully open; plug type n 55)"),
      one_way(by_n("swing check", 100.0, crane + ", sheet A-26 (angled seat)")),
      one_way(by_n("straight swing check", 50.0, crane + " (straight body)")),
      one_way(by_n("lift check", 600.0, crane + " (globe body)")),
      one_way(by_n("angle lift check", 55.0, crane + " (angle body)")),
      spring_check(),
      foot_valve("poppet foot valve", 420.0, 15.0, crane + lifting),
      foot_valve("hinged foot valve", 75.0, 35.0, crane + lifting),
      strainer(),
      at_its(Placement::Where::Start,
             by_bore("contraction from BORE",
                     "sudden contraction: 0.5 (1 - b^2) on the narrow pipe, b = narrow over wide "
                     "bore")),
      at_its(Placement::Where::End,
             by_bore("expansion to BORE",
                     "sudden expansion, Borda-Carnot: (1 - b^2)^2 on the narrow pipe, b = narrow "
                     "over wide bore")),
  };
}

double coupler_k(Length bore) {
  const double ratio = straight_between(barb_points, in_inches(bore));
  const double area_ratio = ratio * ratio;
  const double lost = 1.0 - area_ratio;
  return (0.5 * lost + lost * lost) / (area_ratio * area_ratio);
}

/// A change of bore: area of the narrow pipe over that of the wide one, and what turns a K on the
/// narrow pipe's velocity head into one on this pipe's.
struct BoreChange {
  double area_ratio;
  double to_this_pipe;
};

BoreChange bore_change(Length bore, Length other) {
  const double ratio = bore < other ? bore / other : other / bore;
  const double area_ratio = ratio * ratio;
  return {area_ratio, bore < other ? 1.0 : 1.0 / (area_ratio * area_ratio)};
}

}  // namespace

const std::vector<CatalogueFitting>& fitting_catalogue() {
  static const std::vector<CatalogueFitting> fittings = all_fittings();
  return fittings;
}

const CatalogueFitting* find_fitting(std::string_view name) {
  const std::string wanted = plain_name(name);
  for (const CatalogueFitting& fitting : fitting_catalogue()) {
    const bool needs_bore = fitting.name.find(bore_word) != std::string::npos;
    if (!needs_bore && fitting.name == wanted) {
      return &fitting;
    }
  }
  return nullptr;
}

bool is_foot_valve(const Fitting& fitting) {
  const CatalogueFitting* const row = find_fitting(fitting.name);
  return row != nullptr && row->foot_valve;
}

double ft_of_bore(Length bore) {
  return straight_between(ft_points, in_millimetres(bore));
}

double loss_coefficient(const CatalogueFitting& fitting, Length bore) {
  if (fitting.k) {
    return *fitting.k;
  }
  if (fitting.n_ft) {
    return *fitting.n_ft * ft_of_bore(bore);
  }
  return fitting.name == coupler_name ? coupler_k(bore) : 0.0;
}

std::optional<Velocity> lifting_velocity(const CatalogueFitting& fitting, Length /*bore*/) {
  if (!fitting.lifting_n) {
    return std::nullopt;
  }
  const double feet_per_second = *fitting.lifting_n * std::sqrt(specific_volume_ft3_lb);
  return metres_per_second(feet_per_second * metres_per_foot);
}

double contraction_k(Length bore, Length other) {
  const BoreChange change = bore_change(bore, other);
  return 0.5 * (1.0 - change.area_ratio) * change.to_this_pipe;
}

double expansion_k(Length bore, Length other) {
  const BoreChange change = bore_change(bore, other);
  const double lost = 1.0 - change.area_ratio;
  return lost * lost * change.to_this_pipe;
}

double least_opening(ValveType type) {
  return type == ValveType::Gate ? gate_points.front().x : ball_points.front().x;
}

double valve_loss_coefficient(ValveType type, double open, Length bore) {
  const bool is_gate = type == ValveType::Gate;
  const std::span<const Point> table =
      is_gate ? std::span<const Point>(gate_points) : std::span<const Point>(ball_points);
  std::vector<Point> logarithms;
  for (const Point& point : table) {
    logarithms.push_back({point.x, std::log(point.y)});
  }
  const double open_k = (is_gate ? open_gate_n : open_ball_n) * ft_of_bore(bore);
  logarithms.push_back({1.0, std::log(open_k)});
  return std::exp(straight_between(logarithms, open));
}

}  // namespace leat::model
