#include "solver/fit/fit_search.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace leat::solver {

namespace {

constexpr double no_answer = 1e30;
constexpr double rise_95 = 3.841459;  // chi-square, one degree of freedom
constexpr double normal_95 = 1.959964;
/// Mean of exp(-x^2/2) over 0 to 1.96: the share of an interval's side that explains.
constexpr double mean_likelihood = 0.607646;
constexpr int walk_steps = 11;
constexpr int newton_steps = 8;
constexpr int interval_steps = 12;
constexpr double difference_share = 1e-4;  // of the whole scale

/// One cause's sizes on the scale they are searched on.
class Search {
 public:
  Search(ReadingModel& model, const FitSite& site, const std::vector<GivenReading>& given)
      : model_(model),
        site_(site),
        given_(given),
        low_(on_scale(site, site.least)),
        high_(on_scale(site, site.most)) {}

  struct Point {
    double at = 0.0;
    double chi_square = no_answer;
    std::vector<double> computed;
  };

  Point look(double at) {
    Point point;
    point.at = std::clamp(at, low_, high_);
    if (auto computed = model_.with(site_, off_scale(site_, point.at))) {
      point.chi_square = chi_square_of(*computed, given_);
      point.computed = std::move(*computed);
    }
    return point;
  }

  /// Sizes of either sign are tried more densely near nothing.
  [[nodiscard]] std::vector<double> walk() const {
    std::vector<double> sizes;
    for (int i = 0; i < walk_steps; ++i) {
      const double share = static_cast<double>(i) / (walk_steps - 1);
      if (low_ < 0.0 && high_ > 0.0 && site_.scale == SizeScale::Linear) {
        const double signed_share = 2.0 * share - 1.0;
        sizes.push_back(high_ * signed_share * std::abs(signed_share));
      } else {
        sizes.push_back(low_ + share * (high_ - low_));
      }
    }
    return sizes;
  }

  Point improved(Point best, double least, double most) {
    for (int step = 0; step < newton_steps; ++step) {
      const std::optional<double> newton = newton_step(best);
      if (!newton) {
        break;
      }
      double move = std::clamp(best.at + *newton, least, most) - best.at;
      bool better = false;
      for (int half = 0; half < 5 && !better; ++half, move *= 0.35) {
        Point next = look(best.at + move);
        if (next.chi_square < best.chi_square) {
          const double gain = best.chi_square - next.chi_square;
          best = std::move(next);
          better = true;
          if (gain < 1e-4) {
            return best;
          }
        }
        if (std::abs(move) < 1e-7 * (high_ - low_)) {
          break;
        }
      }
      if (!better) {
        break;
      }
    }
    return best;
  }

  /// How far the sum of squares must be walked to rise by 3.84; none where it does not in reach.
  std::optional<double> width(const Point& best, double direction) {
    const double reach = direction > 0.0 ? high_ - best.at : best.at - low_;
    if (reach <= 0.0) {
      return std::nullopt;
    }
    const double guess = spread_at(best) * normal_95;
    double inside = 0.0;
    double outside = std::min(reach, guess > 0.0 ? guess : reach);
    double rise_inside = 0.0;
    double rise = rise_at(best, direction * outside);
    while (rise < rise_95) {
      if (outside >= reach) {
        return std::nullopt;
      }
      inside = outside;
      rise_inside = rise;
      outside = std::min(reach, outside * 1.6);
      rise = rise_at(best, direction * outside);
    }
    // The root of the rise is nearly straight.
    for (int i = 0; i < interval_steps && std::abs(rise - rise_95) > 0.01; ++i) {
      const double a = std::sqrt(std::max(0.0, rise_inside));
      const double b = std::sqrt(std::min(rise, 1e6));
      const double share = std::clamp((std::sqrt(rise_95) - a) / (b - a), 0.02, 0.98);
      const double middle = inside + share * (outside - inside);
      const double rise_middle = rise_at(best, direction * middle);
      if (rise_middle < rise_95) {
        inside = middle;
        rise_inside = rise_middle;
        if (rise_95 - rise_middle < 0.01) {
          return middle;
        }
      } else {
        outside = middle;
        rise = rise_middle;
      }
    }
    return outside;
  }

  [[nodiscard]] double low() const { return low_; }
  [[nodiscard]] double high() const { return high_; }
  double rise_at(const Point& best, double move) {
    return look(best.at + move).chi_square - best.chi_square;
  }

 private:
  double difference() const { return difference_share * (high_ - low_); }

  /// Slopes of the readings at a point, by a one-sided difference that stays within the sizes.
  std::vector<double> slopes(const Point& point) {
    double step = difference();
    if (point.at + step > high_) {
      step = -step;
    }
    const Point beside = look(point.at + step);
    std::vector<double> slopes;
    for (std::size_t i = 0; i < given_.size() && !beside.computed.empty(); ++i) {
      slopes.push_back((beside.computed[i] - point.computed[i]) / step);
    }
    return slopes;
  }

  std::optional<double> newton_step(const Point& point) {
    if (point.computed.empty()) {
      return std::nullopt;
    }
    const std::vector<double> slope = slopes(point);
    double gradient = 0.0;
    double curvature = 0.0;
    for (std::size_t i = 0; i < slope.size(); ++i) {
      const double weighed = slope[i] / given_[i].error;
      gradient += weighed * (given_[i].value - point.computed[i]) / given_[i].error;
      curvature += weighed * weighed;
    }
    if (!(curvature > 0.0)) {
      return std::nullopt;
    }
    return gradient / curvature;
  }

  double spread_at(const Point& point) {
    double curvature = 0.0;
    const std::vector<double> slope = slopes(point);
    for (std::size_t i = 0; i < slope.size(); ++i) {
      curvature += slope[i] / given_[i].error * slope[i] / given_[i].error;
    }
    return curvature > 0.0 ? 1.0 / std::sqrt(curvature) : 0.0;
  }

  ReadingModel& model_;
  const FitSite& site_;
  const std::vector<GivenReading>& given_;
  double low_;
  double high_;
};

}  // namespace

double chi_square_of(const std::vector<double>& computed, const std::vector<GivenReading>& given) {
  double sum = 0.0;
  for (std::size_t i = 0; i < given.size(); ++i) {
    const double off = (computed[i] - given[i].value) / given[i].error;
    sum += off * off;
  }
  return sum;
}

FittedCause best_size(ReadingModel& model,
                      const FitSite& site,
                      const std::vector<GivenReading>& given) {
  Search search(model, site, given);
  const std::vector<double> sizes = search.walk();
  std::vector<Search::Point> points;
  std::size_t best = 0;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    points.push_back(search.look(sizes[i]));
    if (points[i].chi_square < points[best].chi_square) {
      best = i;
    }
  }
  const double least = sizes[best == 0 ? 0 : best - 1];
  const double most = sizes[std::min(best + 1, sizes.size() - 1)];
  const Search::Point found = search.improved(std::move(points[best]), least, most);
  FittedCause cause;
  cause.site = site;
  cause.size = off_scale(site, found.at);
  cause.low = site.least;
  cause.high = site.most;
  cause.chi_square = found.chi_square;
  cause.computed = found.computed;
  return cause;
}

void find_interval(ReadingModel& model,
                   const std::vector<GivenReading>& given,
                   FittedCause& cause) {
  Search search(model, cause.site, given);
  Search::Point best;
  best.at = on_scale(cause.site, cause.size);
  best.chi_square = cause.chi_square;
  best.computed = cause.computed;
  double evidence = 0.0;
  for (const double direction : {-1.0, 1.0}) {
    const std::optional<double> width = search.width(best, direction);
    const double end = direction < 0.0 ? search.low() : search.high();
    const double at = width ? best.at + direction * *width : end;
    const double size = off_scale(cause.site, at);
    (direction < 0.0 ? cause.low : cause.high) = size;
    (direction < 0.0 ? cause.computed_low : cause.computed_high) = search.look(at).computed;
    const double mass =
        chance_between(cause.site, std::min(size, cause.size), std::max(size, cause.size));
    const double explains =
        width ? mean_likelihood
              : 0.5 * (1.0 + std::exp(-0.5 * std::max(0.0, search.rise_at(best, end - best.at))));
    evidence += mass * explains;
  }
  cause.log_evidence =
      std::log(cause.site.weight) - 0.5 * cause.chi_square + std::log(std::max(evidence, 1e-300));
}

}  // namespace leat::solver
