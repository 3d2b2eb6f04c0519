#include "tests/support/large_scheme.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <string>
#include <utility>
#include <vector>

namespace leat::tests {

namespace {

using namespace leat::model;

class SchemeMaker {
 public:
  SchemeMaker(std::size_t places, SchemeShape shape, std::uint64_t seed)
      : random_(seed * 104729 + 7),
        shape_(shape),
        tee_count_(std::max<std::size_t>(2, places * 11 / 20)) {}

  Farm make() {
    farm_.name = "large scheme";
    farm_.site.water = MonthSeries<Temperature>::constant(celsius(12.0));
    for (std::size_t i = 0; i < tee_count_; ++i) {
      add_tee();
    }
    for (std::size_t i = 0; i < tee_count_ / 20; ++i) {
      const std::size_t from = pick(tee_count_);
      const std::size_t to = near(from);
      if (from != to) {
        add_pipe(from, to);
      }
    }
    for (std::size_t i = 0; i < std::max<std::size_t>(1, tee_count_ / 20); ++i) {
      add_source(i == 0 ? 0 : pick(tee_count_));
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
  std::size_t pick(std::size_t count) {
    return std::min(count - 1, static_cast<std::size_t>(between(0.0, static_cast<double>(count))));
  }

  std::size_t reach() const {
    switch (shape_) {
      case SchemeShape::Bush:
        return tee_count_;
      case SchemeShape::Comb:
        return 200;
      case SchemeShape::Ribbon:
        return 10;
    }
    return tee_count_;
  }
  /// An earlier tee that the shape lets `tee` be joined to.
  std::size_t near(std::size_t tee) {
    return tee == 0 ? 0 : tee - 1 - pick(std::min(tee, reach()));
  }

  std::size_t add(const char* kind, PlaceData data) {
    Place place;
    place.name = kind + std::to_string(farm_.places.size());
    place.data = std::move(data);
    farm_.places.push_back(std::move(place));
    return farm_.places.size() - 1;
  }

  void add_tee() {
    const std::size_t index = farm_.places.size();
    const std::size_t parent = near(index);
    // The ground falls away from the first tee, with low knolls, down to a plain.
    const double above = index == 0 ? 100.0 : level_m_[parent];
    const double level = index == 0 ? 100.0 : std::max(0.0, above + between(-4.0, 1.0));
    level_m_.push_back(level);
    pipes_at_.push_back(0);
    add("tee ", Tee{elevation_metres(level), false});
    if (index > 0) {
      add_pipe(parent, index);
    }
  }

  void add_source(std::size_t tee) {
    const double level = level_m_[tee] + between(2.0, 15.0);
    if (chance(0.8)) {
      Spring spring;
      spring.overflow = elevation_metres(level);
      spring.intake = elevation_metres(level - 0.3);
      spring.yield =
          MonthSeries<Flow>::constant(cubic_metres_per_second(std::pow(10.0, between(-3.7, -2.5))));
      add_pipe(add("spring ", spring), tee);
    } else {
      Creek creek;
      creek.surface = MonthSeries<Elevation>::constant(elevation_metres(level));
      add_pipe(add("creek ", creek), tee);
    }
  }

  void add_ends() {
    for (std::size_t tee = 0; tee < tee_count_; ++tee) {
      if (pipes_at_[tee] > 1 && !chance(0.5)) {
        continue;
      }
      const double level = level_m_[tee] + between(-4.0, 0.5);
      Trough trough;
      trough.float_level = elevation_metres(level);
      trough.need = RateNeed{MonthSeries<Flow>::constant(
          cubic_metres_per_second(std::pow(10.0, between(-5.0, -3.7))))};
      trough.seat = millimetres(between(4.0, 12.0));
      add_pipe(tee, add("trough ", trough));
    }
  }

  void add_pipe(std::size_t from, std::size_t to) {
    constexpr std::array<double, 3> mains = {52.5, 77.9, 102.3};
    constexpr std::array<double, 3> ends = {15.8, 20.9, 26.6};
    const bool is_main = from < tee_count_ && to < tee_count_;
    Pipe pipe;
    pipe.name = "pipe " + std::to_string(farm_.pipes.size());
    pipe.from = from;
    pipe.to = to;
    pipe.size.bore = millimetres(is_main ? mains[pick(3)] : ends[pick(3)]);
    pipe.length = metres(between(20.0, 200.0));
    pipe.one_way = chance(0.06);
    for (const std::size_t end : {from, to}) {
      if (end < pipes_at_.size()) {
        ++pipes_at_[end];
      }
    }
    farm_.pipes.push_back(std::move(pipe));
  }

  std::mt19937_64 random_;
  SchemeShape shape_;
  std::size_t tee_count_;
  Farm farm_;
  std::vector<double> level_m_;        // of the tees
  std::vector<std::size_t> pipes_at_;  // how many pipes a tee has
};

}  // namespace

Farm large_scheme(std::size_t places, SchemeShape shape, std::uint64_t seed) {
  return SchemeMaker(places, shape, seed).make();
}

}  // namespace leat::tests
