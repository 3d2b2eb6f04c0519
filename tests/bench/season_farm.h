// An invented farm of 20 places for the benchmark of a year in steps of an hour.
#pragma once

namespace leat::bench {

inline constexpr const char* season_farm = R"(
farm: a year of twenty places
site: {altitude: 400 m, water: {Jan: 6 C, Jul: 16 C}}
springs:
  upper: {overflow: 60 m, intake: 59.6 m, yield: {Jan: 20 L/min, May: 14 L/min, Aug: 5 L/min, Nov: 12 L/min}}
  side: {overflow: 48 m, intake: 47.7 m, yield: {Jan: 9 L/min, Aug: 2 L/min, Nov: 6 L/min}}
tanks:
  hill tank: {floor: 52 m, full: 1.8 m, diameter: 2.4 m}
  low tank: {floor: 33 m, full: 1.5 m, diameter: 2 m, float inlet: 1.3 m}
ponds:
  pond: {surface: 20 m, spills: 20.5 m, seepage: 2 mm/day, shape: {top: 24 m x 14 m, sides: 2:1, depth: 2.4 m}}
tees:
  fork: 40 m
  gate: 36 m
  lane: 30 m
  bank: 28 m
  dip: 22 m
  yard: 26 m
troughs:
  top: {float: 46 m, need: 900 L/day, drinks: [6:00-20:00], seat: 8 mm, holds: 500 L}
  north: {float: 38 m, need: 1400 L/day, within: 8 h, seat: 8 mm, holds: 800 L}
  south: {float: 34 m, need: 1100 L/day, within: 8 h, seat: 8 mm}
  paddock: {float: 31 m, need: 700 L/day, drinks: [6:00-9:00, 17:00-20:00], seat: 6 mm, holds: 300 L}
  ewes: {float: 29 m, need: 500 L/day, within: 12 h, seat: 6 mm}
  calves: {float: 27 m, need: 350 L/day, within: 6 h, seat: 6 mm, holds: 200 L}
  far: {float: 24 m, need: 600 L/day, within: 10 h, seat: 6 mm}
outlets:
  garden: {level: 25 m, wished: 0.5 L/min, opening: 2 mm}
pipes:
  main: {from: upper, to: hill tank, size: 1 in SIDR 15, length: 180 m}
  down: {from: hill tank, to: fork, size: 1 in SIDR 15, length: 150 m}
  from side: {from: side, to: pond, size: 3/4 in SIDR 15, length: 120 m, ends: 20.8 m}
  to top: {from: fork, to: top, size: 3/4 in SIDR 15, length: 90 m}
  fork to gate: {from: fork, to: gate, size: 1 in SIDR 15, length: 130 m}
  to north: {from: gate, to: north, size: 3/4 in SIDR 15, length: 80 m}
  to low tank: {from: gate, to: low tank, size: 3/4 in SIDR 15, length: 60 m}
  below tank: {from: low tank, to: lane, size: 3/4 in SIDR 15, length: 100 m}
  to south: {from: gate, to: south, size: 3/4 in SIDR 15, length: 70 m}
  to paddock: {from: lane, to: paddock, size: 3/4 in SIDR 15, length: 50 m}
  lane to bank: {from: lane, to: bank, size: 3/4 in SIDR 15, length: 90 m}
  to ewes: {from: bank, to: ewes, size: 3/4 in SIDR 15, length: 50 m}
  bank to yard: {from: bank, to: yard, size: 3/4 in SIDR 15, length: 80 m}
  to calves: {from: yard, to: calves, size: 3/4 in SIDR 15, length: 40 m}
  to garden: {from: yard, to: garden, size: 3/4 in SIDR 15, length: 30 m}
  yard to dip: {from: yard, to: dip, size: 3/4 in SIDR 15, length: 120 m}
  to far: {from: dip, to: far, size: 3/4 in SIDR 15, length: 60 m}
)";

}  // namespace leat::bench
