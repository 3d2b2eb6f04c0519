#include "solver/uncertainty/sampled_farm.h"

#include <cmath>
#include <numbers>

namespace leat::solver {

namespace {

/// Finaliser of splitmix64 (Steele, Lea and Flood 2014; constants from memory): every bit of the
/// counter moves every bit of what comes out.
std::uint64_t mixed(std::uint64_t value) {
  value ^= value >> 30U;
  value *= 0xbf58476d1ce4e5b9U;
  value ^= value >> 27U;
  value *= 0x94d049bb133111ebU;
  return value ^ (value >> 31U);
}

constexpr std::uint64_t golden_step = 0x9e3779b97f4a7c15U;

/// Strictly between 0 and 1.
double uniform_deviate(std::uint64_t seed, std::uint64_t draw, std::uint64_t input) {
  std::uint64_t bits = mixed(seed + golden_step);
  bits = mixed(bits ^ (draw + golden_step));
  bits = mixed(bits + input * golden_step);
  constexpr double least_step = 1.0 / 9007199254740992.0;  // 2^-53
  return (static_cast<double>(bits >> 11U) + 0.5) * least_step;
}

/// Acklam's rational approximation to the inverse normal distribution, good to 1.2e-9 relative.
double first_quantile(double p) {
  constexpr double a[] = {-3.969683028665376e+01,
                          2.209460984245205e+02,
                          -2.759285104469687e+02,
                          1.383577518672690e+02,
                          -3.066479806614716e+01,
                          2.506628277459239e+00};
  constexpr double b[] = {-5.447609879822406e+01,
                          1.615858368580409e+02,
                          -1.556989798598866e+02,
                          6.680131188771972e+01,
                          -1.328068155288572e+01};
  constexpr double c[] = {-7.784894002430293e-03,
                          -3.223964580411365e-01,
                          -2.400758277161838e+00,
                          -2.549732539343734e+00,
                          4.374664141464968e+00,
                          2.938163982698783e+00};
  constexpr double d[] = {
      7.784695709041462e-03, 3.224671290700398e-01, 2.445134137142996e+00, 3.754408661907416e+00};
  constexpr double tail = 0.02425;
  if (p < tail || p > 1.0 - tail) {
    const double q = std::sqrt(-2.0 * std::log(p < tail ? p : 1.0 - p));
    const double value = (((((c[0] * q + c[1]) * q + c[2]) * q + c[3]) * q + c[4]) * q + c[5]) /
                         ((((d[0] * q + d[1]) * q + d[2]) * q + d[3]) * q + 1.0);
    return p < tail ? value : -value;
  }
  const double q = p - 0.5;
  const double r = q * q;
  return (((((a[0] * r + a[1]) * r + a[2]) * r + a[3]) * r + a[4]) * r + a[5]) * q /
         (((((b[0] * r + b[1]) * r + b[2]) * r + b[3]) * r + b[4]) * r + 1.0);
}

}  // namespace

double normal_quantile(double probability) {
  const double x = first_quantile(probability);
  const double off = 0.5 * std::erfc(-x / std::numbers::sqrt2) - probability;
  const double step = off * std::sqrt(2.0 * std::numbers::pi) * std::exp(0.5 * x * x);
  return x - step / (1.0 + 0.5 * x * step);
}

double normal_deviate(std::uint64_t seed, std::uint64_t draw, std::uint64_t input) {
  // The approximation alone: its error is a billionth, and it is asked for a million times.
  return first_quantile(uniform_deviate(seed, draw, input));
}

void draw_into(model::Farm& farm,
               const model::Farm& base,
               std::span<const UncertainInput> inputs,
               std::uint64_t seed,
               std::uint64_t draw) {
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    set_input(farm,
              base,
              inputs[i].input,
              inputs[i].deviation * normal_deviate(seed, draw, static_cast<std::uint64_t>(i)));
  }
}

model::Farm drawn_farm(const model::Farm& base,
                       std::span<const UncertainInput> inputs,
                       std::uint64_t seed,
                       std::uint64_t draw) {
  model::Farm farm = base;
  draw_into(farm, base, inputs, seed, draw);
  return farm;
}

}  // namespace leat::solver
