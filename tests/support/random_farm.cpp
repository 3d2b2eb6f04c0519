#include "tests/support/random_farm.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

#include <fmt/format.h>

#include "model/catalogue/fitting_catalogue.h"

namespace leat::tests {

namespace {

using namespace leat::model;

class FarmMaker {
 public:
  FarmMaker(std::uint64_t seed, FarmKind kind) : random_(seed * 7919 + 17), kind_(kind) {}

  Farm make() {
    farm_.name = "random";
    farm_.site.water = MonthSeries<Temperature>::constant(celsius(between(2.0, 30.0)));
    farm_.site.altitude = metres(chance(0.2) ? between(0.0, 3000.0) : 300.0);
    if (kind_ == FarmKind::SingleLine) {
      single_line();
      return std::move(farm_);
    }
    const int most = kind_ == FarmKind::Prototype ? 80 : 60;
    const int tees = 1 + static_cast<int>(between(0.0, 1.0) * between(0.0, 1.0) * most);
    for (int i = 0; i < tees; ++i) {
      add_tee();
    }
    join_tees();
    const int sources = 1 + static_cast<int>(between(0.0, 2.6));
    for (int i = 0; i < sources; ++i) {
      add_source();
    }
    add_ends();
    return std::move(farm_);
  }

 private:
  // The standard's distributions differ between libraries; these do not.
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(random_() >> 11) * 0x1.0p-53;
  }
  bool chance(double share) { return between(0.0, 1.0) < share; }
  double spread(double low_power, double high_power) {
    return std::pow(10.0, between(low_power, high_power));
  }
  std::size_t pick(std::size_t count) {
    return std::min(count - 1, static_cast<std::size_t>(between(0.0, static_cast<double>(count))));
  }
  [[nodiscard]] bool everything() const { return kind_ == FarmKind::Everything; }
  [[nodiscard]] bool limits() const { return kind_ != FarmKind::LimitFree; }

  std::size_t add(std::string kind, PlaceData data) {
    Place place;
    place.name = fmt::format("{} {}", kind, farm_.places.size());
    place.data = std::move(data);
    farm_.places.push_back(std::move(place));
    return farm_.places.size() - 1;
  }

  void add_tee() {
    // Now and then a level that is exactly another's: ties are where limits meet.
    const double level = everything() && chance(0.1) ? 10.0 : between(0.0, 20.0);
    tees_.push_back(add("tee", Tee{elevation_metres(level), false}));
    if (tees_.size() > 1 && everything() && chance(0.03)) {
      // A settling tank instead of a tee on the way.
      Tank tank;
      tank.floor = elevation_metres(between(0.0, 18.0));
      tank.full = metres(between(0.5, 3.0));
      tank.settles = true;
      if (chance(0.3)) {
        tank.float_inlet = tank.full * between(0.2, 0.9);
      }
      farm_.places.back().data = tank;
    }
  }

  void join_tees() {
    for (std::size_t i = 1; i < tees_.size(); ++i) {
      const double back = std::pow(between(0.0, 1.0), 2.0) * 10.0;
      const std::size_t reach = std::min(i - 1, static_cast<std::size_t>(back));
      const std::size_t other = tees_[i - 1 - reach];
      if (chance(0.8)) {
        add_pipe(other, tees_[i]);
      } else {
        add_pipe(tees_[i], other);
      }
    }
    const std::size_t loops = tees_.size() > 3 ? tees_.size() / 10 + (chance(0.5) ? 1U : 0U) : 0U;
    for (std::size_t i = 0; i < loops; ++i) {
      const std::size_t a = pick(tees_.size());
      const std::size_t b = pick(tees_.size());
      if (a != b) {
        add_pipe(tees_[a], tees_[b]);
      }
    }
  }

  void add_source() {
    const double level = everything() && chance(0.1) ? 10.0 : between(8.0, 30.0);
    const std::size_t tee = tees_[pick(tees_.size())];
    const double kind = limits() ? between(0.0, 1.0) : 0.9;
    if (kind < 0.55) {
      Spring spring;
      spring.overflow = elevation_metres(level);
      spring.intake = elevation_metres(level - 0.3);
      const double yield = everything() && chance(0.03) ? 0.0 : spread(-5.0, -2.7);
      spring.yield = MonthSeries<Flow>::constant(cubic_metres_per_second(yield));
      add_pipe(add("spring", spring), tee);
    } else if (kind < 0.65 && everything()) {
      Tank tank;
      tank.floor = elevation_metres(level - 2.0);
      tank.full = metres(2.5);
      tank.depth = metres(between(0.1, 2.5));
      add_pipe(add("tank", tank), tee);
    } else {
      Creek creek;
      creek.surface = MonthSeries<Elevation>::constant(elevation_metres(level));
      if (everything() && chance(0.3)) {
        creek.intake = elevation_metres(level - between(-0.2, 1.0));
      }
      add_pipe(add("creek", creek), tee);
    }
  }

  void add_ends() {
    std::vector<int> degree(farm_.places.size(), 0);
    for (const Pipe& pipe : farm_.pipes) {
      ++degree[pipe.from];
      ++degree[pipe.to];
    }
    for (const std::size_t tee : tees_) {
      const bool dead = everything() && chance(0.1);
      if ((degree[tee] <= 1 && !dead) || chance(0.15)) {
        add_end(tee);
      }
    }
  }

  void add_end(std::size_t tee) {
    const double level = everything() && chance(0.1) ? 10.0 : between(0.0, 20.0);
    const double kind = limits() ? between(0.0, 1.0) : 0.9;
    if (kind < 0.5) {
      Trough trough;
      trough.float_level = elevation_metres(level);
      if (!chance(0.1)) {
        const double need = everything() && chance(0.03) ? 0.0 : spread(-5.0, -3.0);
        trough.need = RateNeed{MonthSeries<Flow>::constant(cubic_metres_per_second(need))};
      }
      if (chance(0.7)) {
        trough.seat = millimetres(between(2.0, 14.0));
      }
      add_pipe(tee, add("trough", trough));
    } else if (kind < 0.8 || !everything()) {
      if (!limits()) {
        add_pond(tee, level);
        return;
      }
      Outlet outlet;
      outlet.level = elevation_metres(level);
      if (chance(0.4)) {
        outlet.opening = millimetres(between(3.0, 20.0));
      }
      add_pipe(tee, add("outlet", outlet));
    } else {
      add_pond(tee, level);
    }
  }

  void add_pond(std::size_t tee, double level) {
    Pond pond;
    pond.surface = MonthSeries<Elevation>::constant(elevation_metres(level));
    const std::size_t place = add("pond", pond);
    add_pipe(tee, place);
    if (everything() && chance(0.4)) {
      Pipe& pipe = farm_.pipes.back();
      pipe.path.clear();
      pipe.ends = elevation_metres(level + between(-1.0, 1.0));
      lengthen(pipe);
    }
  }

  void single_line() {
    add_tee();
    tees_.clear();
    farm_.places.clear();
    Creek creek;
    creek.surface = MonthSeries<Elevation>::constant(elevation_metres(between(10.0, 20.0)));
    const std::size_t source = add("creek", creek);
    Outlet outlet;
    outlet.level = elevation_metres(between(0.0, 9.0));
    const std::size_t end = add("outlet", outlet);
    Pipe pipe;
    pipe.name = "line";
    pipe.from = source;
    pipe.to = end;
    pipe.size.bore = millimetres(between(12.0, 60.0));
    pipe.length = metres(spread(1.3, 3.0));
    farm_.pipes.push_back(pipe);
  }

  double bore_mm() {
    constexpr std::array<double, 6> bores = {15.8, 20.9, 26.6, 35.1, 40.9, 52.5};
    return bores[pick(bores.size())];
  }

  void add_pipe(std::size_t from, std::size_t to) {
    Pipe pipe;
    pipe.name = fmt::format("pipe {}", farm_.pipes.size());
    pipe.from = from;
    pipe.to = to;
    pipe.size.bore = millimetres(bore_mm());
    pipe.size.text = "random";
    const double power = everything() && chance(0.02) ? 3.7 : between(1.0, 3.0);
    pipe.length = metres(everything() && chance(0.02) ? 0.01 : std::pow(10.0, power));
    if (chance(0.4)) {
      add_k(pipe, between(0.0, 15.0));
    }
    if (limits()) {
      pipe.one_way = chance(0.06);
      if (chance(0.12)) {
        add_path(pipe);
      }
      if (chance(0.02)) {
        pipe.regulator =
            Regulator{{chance(0.5) ? Placement::Where::Start : Placement::Where::End, {}},
                      kilopascals(between(0.0, 120.0))};
      }
    }
    if (everything()) {
      add_oddities(pipe);
    }
    lengthen(pipe);
    farm_.pipes.push_back(std::move(pipe));
  }

  static void add_k(Pipe& pipe, double k) {
    Fitting fitting;
    fitting.name = "k";
    fitting.loss_coefficient = k;
    pipe.fittings.push_back(fitting);
  }

  void add_oddities(Pipe& pipe) {
    if (chance(0.04)) {
      const CatalogueFitting* found =
          find_fitting(chance(0.5) ? "poppet foot valve" : "hinged foot valve");
      Fitting fitting;
      fitting.name = found->name;
      fitting.loss_coefficient = loss_coefficient(*found, pipe.size.bore);
      fitting.one_way = true;
      fitting.lifting_velocity = lifting_velocity(*found, pipe.size.bore);
      fitting.place.where = Placement::Where::Start;
      pipe.fittings.push_back(fitting);
    }
    if (chance(0.03)) {
      Fitting check;
      check.name = "spring check";
      check.loss_coefficient = 5.0;
      check.one_way = true;
      check.opening_head = metres(between(0.1, 0.4));
      check.place.where = Placement::Where::End;
      pipe.fittings.push_back(check);
    }
    if (chance(0.08)) {
      Valve valve;
      valve.type = chance(0.5) ? ValveType::Gate : ValveType::Ball;
      valve.open =
          chance(0.3) ? least_opening(valve.type) : between(least_opening(valve.type), 1.0);
      valve.shut = chance(0.2);
      valve.place = Placement{chance(0.5) ? Placement::Where::Start : Placement::Where::End, {}};
      pipe.valve = valve;
    }
    if (chance(0.04)) {
      Vent vent;
      vent.distance = pipe.length * between(0.1, 0.9);
      if (chance(0.5)) {
        vent.top = elevation_metres(between(5.0, 25.0));
      }
      pipe.vents.push_back(vent);
    }
    if (chance(0.05)) {
      pipe.entrance_k = between(0.0, 1.0);
      pipe.exit_k = between(0.0, 1.0);
    }
    if (chance(0.02)) {
      pipe.size.friction_factor = between(0.01, 0.05);
    } else if (chance(0.02)) {
      pipe.size.hazen_williams_c = between(100.0, 150.0);
    }
  }

  void add_path(Pipe& pipe) {
    const double start = in_metres(from_end_level(farm_, pipe, std::nullopt));
    const double end = in_metres(to_end_level(farm_, pipe, std::nullopt));
    const int inner = 1 + static_cast<int>(between(0.0, 3.0));
    const double run = in_metres(pipe.length);
    pipe.path.push_back({metres(0.0), elevation_metres(start)});
    for (int i = 1; i <= inner; ++i) {
      const double share = static_cast<double>(i) / (inner + 1);
      const double lift = chance(0.2) ? between(0.0, 12.0) : between(-3.0, 4.0);
      pipe.path.push_back(
          {metres(share * run), elevation_metres(start + share * (end - start) + lift)});
    }
    pipe.path.push_back({metres(run), elevation_metres(end)});
  }

  /// A pipe is never shorter than its own course.
  void lengthen(Pipe& pipe) {
    double course = std::abs(in_metres(to_end_level(farm_, pipe, std::nullopt)) -
                             in_metres(from_end_level(farm_, pipe, std::nullopt)));
    if (!pipe.path.empty()) {
      course = 0.0;
      for (std::size_t i = 1; i < pipe.path.size(); ++i) {
        course += std::hypot(in_metres(pipe.path[i].distance - pipe.path[i - 1].distance),
                             in_metres(pipe.path[i].elevation - pipe.path[i - 1].elevation));
      }
    }
    pipe.length = std::max(pipe.length, metres(course * 1.001));
  }

  std::mt19937_64 random_;
  FarmKind kind_;
  Farm farm_;
  std::vector<std::size_t> tees_;
};

}  // namespace

Farm random_farm(std::uint64_t seed, FarmKind kind) {
  return FarmMaker(seed, kind).make();
}

}  // namespace leat::tests
