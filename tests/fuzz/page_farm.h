// The farm that the page's fuzz targets change.
#pragma once

namespace leat::fuzz {

inline constexpr const char* page_farm = R"(farm: Two Troughs   # a remark
show: metric
springs:
  top: {overflow: 30 m, yield: {Apr: 12 L/min, Aug: 6 L/min}}
tees: {fork: 10 m}
troughs:
  north: {float: 12 m, need: 2 L/min, seat: 6 mm}
  south: {float: 5 m, herd: {ewe: 30}}
pipes:
  main: {from: top, to: fork, size: 25 mm PE100 SDR 11, path: [[0 m, 29.7 m], [60 m, 20 m], [100 m, 10 m]]}
  up:
    from: fork
    to: north
    size: 25 mm PE100 SDR 11
    length: 30 m
    valve: {type: gate, open: 1, at: end}
    fittings: [strainer, 2 elbow]
  down: {from: fork, to: south, size: '1 in SIDR 15, 100 psi', length: 30 m}
)";

}  // namespace leat::fuzz
