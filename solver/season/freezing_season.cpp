#include "solver/season/freezing_season.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <variant>

#include "solver/answer/steady_answer.h"
#include "solver/day/day_values.h"
#include "solver/hydrology/freezing.h"
#include "solver/network/pipe_geometry.h"

namespace leat::solver {

namespace {

constexpr double usual_wind_m_s = 2.0;           // FAO-56 chapter 3, where no wind is known
constexpr double usual_humidity_percent = 80.0;  // a winter night's (common practice, no source)
/// What the farm's water is taken for where the file says nothing of it, and what it then is in
/// winter at least: the cool end of spring water, 45 F (Angus bulletin: 45 to 55 F).
constexpr double untold_water_C = 15.0;
constexpr double cool_spring_C = 7.0;

/// The share of nights below 0 C where they stray normally about a mean.
double freezing_share(double usual_night_C) {
  return 0.5 * std::erfc(usual_night_C / night_spread_C / std::numbers::sqrt2);
}

/// Wall's conductivity [W/m K] (from memory, as hydrology::PipeWall).
double conductivity_W_m_K(model::PipeMaterial material) {
  switch (material) {
    case model::PipeMaterial::Pvc:
    case model::PipeMaterial::Hose:
    case model::PipeMaterial::SuctionHose:
      return 0.16;
    case model::PipeMaterial::Steel:
      return 50.0;
    case model::PipeMaterial::Polyethylene:
    case model::PipeMaterial::Unknown:
      break;
  }
  return hydrology::PipeWall{}.conductivity_W_m_K;
}

hydrology::PipeWall wall_of(const model::PipeSize& size) {
  // A pipe of unknown wall is taken for one of DR 11: a ninth of the bore more on either side.
  constexpr double usual_wall_per_bore = 1.0 / 9.0;
  hydrology::PipeWall wall;
  wall.bore_m = in_metres(size.bore);
  wall.conductivity_W_m_K = conductivity_W_m_K(size.material);
  const double thickness_m = size.wall ? in_metres(*size.wall) : usual_wall_per_bore * wall.bore_m;
  wall.outside_diameter_m =
      size.outside_diameter ? in_metres(*size.outside_diameter) : wall.bore_m + 2.0 * thickness_m;
  return wall;
}

bool lies_open(const model::Pipe& pipe) {
  return pipe.lies != model::Lies::Buried;
}

/// What a flow does against the least one, within the spread of the rules.
FrostVerdict verdict_of(double flow_m3_s, std::optional<double> least_m3_s) {
  if (!(flow_m3_s > still_flow_m3_s)) {
    return FrostVerdict::Still;
  }
  if (!least_m3_s || flow_m3_s < *least_m3_s / hydrology::freezing_spread) {
    return FrostVerdict::TooLittle;
  }
  return flow_m3_s < *least_m3_s * hydrology::freezing_spread ? FrostVerdict::Doubtful
                                                              : FrostVerdict::Enough;
}

/// Whether water is only taken for 15 C because the file says nothing of it.
bool water_is_untold(const model::Site& site) {
  return site.water_record.empty() && !site.water.varies &&
         in_celsius(site.water.at(std::nullopt)) == untold_water_C;
}

class FrostStudy {
 public:
  FrostStudy(const model::Farm& farm, std::span<const double> flows) : farm_(farm), flows_(flows) {}

  [[nodiscard]] FrostAnswer run(model::Date from, model::Date to);

 private:
  void count_nights(model::Date from, model::Date to);
  void count_night(model::Date date, const DayWeather& weather, double water_C);
  void judge_pipes();
  void judge_troughs();
  void find_low_tees();
  void note_troughs();
  void write_notes();

  [[nodiscard]] double flow_of(std::size_t pipe) const {
    return flows_.empty() ? 0.0 : flows_[pipe];
  }
  [[nodiscard]] double loss_W_m_K(std::size_t pipe) const {
    return hydrology::exposed_loss_W_m_K(wall_of(farm_.pipes[pipe].size),
                                         answer_.coldest->wind_m_s);
  }
  [[nodiscard]] bool backwards(std::size_t pipe) const { return flow_of(pipe) < 0.0; }
  [[nodiscard]] std::size_t inlet_of(std::size_t pipe) const {
    return backwards(pipe) ? farm_.pipes[pipe].to : farm_.pipes[pipe].from;
  }
  [[nodiscard]] std::size_t outlet_of(std::size_t pipe) const {
    return backwards(pipe) ? farm_.pipes[pipe].from : farm_.pipes[pipe].to;
  }
  [[nodiscard]] std::optional<std::size_t> feeder_of(std::size_t place,
                                                     const std::vector<bool>& taken) const;
  [[nodiscard]] bool feeds_floats_only(std::size_t pipe) const;
  [[nodiscard]] FrostPipe judged(std::size_t pipe) const;

  const model::Farm& farm_;
  std::span<const double> flows_;
  FrostAnswer answer_;
};

void FrostStudy::count_night(model::Date date, const DayWeather& weather, double water_C) {
  const double lowest_C = *weather.lowest_C;
  if (answer_.months.empty() || answer_.months.back().month != model::month_of(date) ||
      answer_.months.back().year != date.year) {
    answer_.months.push_back({.year = date.year, .month = model::month_of(date), .measured = true});
  }
  FrostMonth& month = answer_.months.back();
  const bool measured = !weather.lowest_by_months;
  ++month.nights;
  month.freezing += measured ? (lowest_C < 0.0 ? 1.0 : 0.0) : freezing_share(lowest_C);
  month.usual_night_C += (lowest_C - month.usual_night_C) / month.nights;
  month.measured = month.measured && measured;
  const double air_C = measured ? lowest_C : lowest_C - coldest_night_spreads * night_spread_C;
  if (air_C < 0.0 && (!answer_.coldest || air_C < answer_.coldest->air_C)) {
    answer_.coldest =
        FrostNight{.on = date,
                   .air_C = air_C,
                   .water_C = water_is_untold(farm_.site) ? cool_spring_C : water_C,
                   .wind_m_s = weather.wind_2m_m_s.value_or(usual_wind_m_s),
                   .humidity_percent = weather.humidity_percent.value_or(usual_humidity_percent),
                   .measured = measured};
  }
}

void FrostStudy::count_nights(model::Date from, model::Date to) {
  const FarmWeather weather(farm_);
  const FarmDays days(farm_);
  DayValues values;
  for (int day = model::day_number(from); day <= model::day_number(to); ++day) {
    const model::Date date = model::date_of_day(day);
    const DayWeather today = weather.on(date);
    if (today.lowest_C) {
      days.read(date, values);
      count_night(date, today, values.water_C);
    }
  }
}

/// The pipe that brings a place most of its water; without flows, the first that ends there.
std::optional<std::size_t> FrostStudy::feeder_of(std::size_t place,
                                                 const std::vector<bool>& taken) const {
  std::optional<std::size_t> found;
  for (std::size_t pipe = 0; pipe < farm_.pipes.size(); ++pipe) {
    const bool better = !found || std::abs(flow_of(pipe)) > std::abs(flow_of(*found));
    if (!taken[pipe] && outlet_of(pipe) == place && better) {
      found = pipe;
    }
  }
  return found;
}

bool FrostStudy::feeds_floats_only(std::size_t pipe) const {
  std::vector<bool> reached(farm_.places.size(), false);
  std::vector<std::size_t> open = {outlet_of(pipe)};
  bool feeds_float = false;
  while (!open.empty()) {
    const std::size_t place = open.back();
    open.pop_back();
    if (reached[place]) {
      continue;
    }
    reached[place] = true;
    if (model::float_level_of(farm_.places[place])) {
      feeds_float = true;
      continue;
    }
    if (!model::is_tee(farm_.places[place])) {
      return false;
    }
    for (std::size_t next = 0; next < farm_.pipes.size(); ++next) {
      if (next != pipe && inlet_of(next) == place) {
        open.push_back(outlet_of(next));
      }
    }
  }
  return feeds_float;
}

FrostPipe FrostStudy::judged(std::size_t pipe) const {
  const FrostNight& night = *answer_.coldest;
  FrostPipe judged;
  judged.pipe = pipe;
  judged.lies_untold = farm_.pipes[pipe].lies == model::Lies::Unsaid;
  judged.feeds_floats_only = feeds_floats_only(pipe);
  judged.loss_W_m_K = loss_W_m_K(pipe);
  judged.water_C = night.water_C;
  judged.drains = low_points(farm_, pipe);

  // From this pipe up to open water, since the water cools all the way. A pipe that carries more
  // than this one cools it less: by the ratio of their flows.
  const double flow_m3_s = std::abs(flow_of(pipe));
  double loss_W_K = 0.0;
  std::vector<bool> taken(farm_.pipes.size(), false);
  for (std::optional<std::size_t> at = pipe; at;) {
    taken[*at] = true;
    if (lies_open(farm_.pipes[*at])) {
      const double length_m = in_metres(farm_.pipes[*at].length);
      const double there_m3_s = std::abs(flow_of(*at));
      const double share = there_m3_s > flow_m3_s ? flow_m3_s / there_m3_s : 1.0;
      judged.exposed_m += length_m;
      loss_W_K += loss_W_m_K(*at) * length_m * (flow_m3_s > still_flow_m3_s ? share : 1.0);
    }
    const std::size_t inlet = inlet_of(*at);
    at = model::is_open_water(farm_.places[inlet]) ? std::nullopt : feeder_of(inlet, taken);
  }
  judged.least_flow_m3_s =
      hydrology::least_pipe_flow_m3_s(loss_W_K, 1.0, night.water_C, night.air_C, least_water_C);
  const auto still =
      hydrology::still_pipe_hours(
          judged.loss_W_m_K, in_metres(farm_.pipes[pipe].size.bore), night.water_C, night.air_C)
          .value_or(hydrology::FreezingHours{});
  judged.first_ice_h = still.to_first_ice;
  judged.solid_h = still.to_solid;
  if (!flows_.empty()) {
    judged.flow_m3_s = flow_of(pipe);
    judged.verdict = judged.feeds_floats_only ? FrostVerdict::Still
                                              : verdict_of(flow_m3_s, judged.least_flow_m3_s);
  }
  return judged;
}

void FrostStudy::judge_pipes() {
  for (std::size_t pipe = 0; pipe < farm_.pipes.size(); ++pipe) {
    // A pipe still to be sized has no bore to freeze.
    if (lies_open(farm_.pipes[pipe]) && !farm_.pipes[pipe].size.choose) {
      answer_.pipes.push_back(judged(pipe));
    }
  }
}

void FrostStudy::judge_troughs() {
  const FrostNight& night = *answer_.coldest;
  const double loss_W_m2 = hydrology::open_water_loss_W_m2(
      least_water_C, night.air_C, night.humidity_percent, night.wind_m_s);
  for (std::size_t place = 0; place < farm_.places.size(); ++place) {
    if (!model::is_trough(farm_.places[place])) {
      continue;
    }
    FrostTrough trough;
    trough.place = place;
    trough.least_inflow_m3_s =
        hydrology::least_trough_inflow_m3_s(loss_W_m2, open_hole_m2, night.water_C, least_water_C);
    const auto feeder = feeder_of(place, std::vector<bool>(farm_.pipes.size(), false));
    if (feeder && !flows_.empty()) {
      trough.flow_m3_s = flow_of(*feeder);
      trough.verdict = FrostVerdict::Still;
    }
    answer_.troughs.push_back(trough);
  }
}

void FrostStudy::find_low_tees() {
  std::vector<int> pipes_up(farm_.places.size(), 0);
  std::vector<bool> low(farm_.places.size(), true);
  const auto look = [&](std::size_t place, double level_m, double next_m) {
    ++pipes_up[place];
    low[place] = low[place] && next_m > level_m;
  };
  for (const model::Pipe& pipe : farm_.pipes) {
    const auto course = course_of(farm_, pipe, model::Month::Jan).points;
    look(pipe.from, course.front().elevation_m, course[1].elevation_m);
    look(pipe.to, course.back().elevation_m, course[course.size() - 2].elevation_m);
  }
  for (std::size_t place = 0; place < farm_.places.size(); ++place) {
    const model::Place& tee = farm_.places[place];
    if (model::is_tee(tee) && low[place] && pipes_up[place] > 1) {
      answer_.low_tees.push_back(
          {.tee = place, .elevation_m = in_metres(model::level_of(tee, std::nullopt))});
    }
  }
}

void FrostStudy::note_troughs() {
  if (answer_.troughs.empty()) {
    return;
  }
  FrostAtTroughs note{.troughs = {},
                      .least_inflow_m3_s = answer_.troughs.front().least_inflow_m3_s,
                      .water_C = answer_.coldest->water_C,
                      .hole_m2 = open_hole_m2};
  for (const FrostTrough& trough : answer_.troughs) {
    note.troughs.push_back(farm_.places[trough.place].name);
  }
  answer_.notes.emplace_back(std::move(note));
}

void FrostStudy::write_notes() {
  if (answer_.months.empty()) {
    answer_.notes.emplace_back(FrostUntold{});
    return;
  }
  answer_.notes.emplace_back(FrostNights{answer_.months, answer_.coldest});
  if (!answer_.coldest) {
    return;
  }
  if (water_is_untold(farm_.site)) {
    answer_.notes.emplace_back(ColdSpringTaken{cool_spring_C});
  }
  answer_.notes.emplace_back(FrostRules{});
  note_troughs();
  const auto has_vent = [](const model::Pipe& pipe) { return !pipe.vents.empty(); };
  if (std::any_of(farm_.pipes.begin(), farm_.pipes.end(), has_vent)) {
    answer_.notes.emplace_back(VentsInFrost{});
  }
  if (!answer_.low_tees.empty()) {
    LowTees low;
    for (const DrainPoint& point : answer_.low_tees) {
      low.tees.push_back(farm_.places[*point.tee].name);
    }
    answer_.notes.emplace_back(std::move(low));
  }
}

FrostAnswer FrostStudy::run(model::Date from, model::Date to) {
  count_nights(from, to);
  if (answer_.coldest) {
    judge_pipes();
    judge_troughs();
    find_low_tees();
  }
  write_notes();
  return std::move(answer_);
}

}  // namespace

std::vector<DrainPoint> low_points(const model::Farm& farm, std::size_t pipe) {
  const auto points = course_of(farm, farm.pipes[pipe], model::Month::Jan).points;
  std::vector<DrainPoint> lows;
  std::size_t fallen_to = 0;  // where the last fall ended, while nothing rises again; 0: nowhere
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (points[i].elevation_m < points[i - 1].elevation_m) {
      fallen_to = i;
    } else if (points[i].elevation_m > points[i - 1].elevation_m) {
      if (fallen_to > 0) {
        const CoursePoint& low = points[fallen_to];
        lows.push_back({.pipe = pipe, .at_m = low.at_m, .elevation_m = low.elevation_m});
      }
      fallen_to = 0;
    }
  }
  return lows;
}

FrostAnswer freezing_season(const model::Farm& farm,
                            model::Date from,
                            model::Date to,
                            std::span<const double> flow_by_pipe_m3_s) {
  if (!flow_by_pipe_m3_s.empty() && flow_by_pipe_m3_s.size() != farm.pipes.size()) {
    throw std::invalid_argument("a flow for each pipe is wanted, or none");
  }
  return FrostStudy(farm, flow_by_pipe_m3_s).run(from, to);
}

}  // namespace leat::solver
