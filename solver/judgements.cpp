#include "solver/judgements.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "solver/hydraulics/pipe_rating.h"
#include "solver/lower_summit.h"
#include "solver/pipe_warmth.h"
#include "solver/spoken_amount.h"
#include "solver/starved_reason.h"

namespace leat::solver {

namespace {

class Judge {
 public:
  Judge(const FlowState& state,
        const Happenings& happenings,
        const std::vector<std::optional<StaticPressure>>& static_pressures,
        model::UnitSystem units,
        SteadyAnswer& answer)
      : state_(state),
        farm_(*state.farm),
        happenings_(happenings),
        static_pressures_(static_pressures),
        units_(units),
        answer_(answer) {
    const Surroundings& around = state.surroundings;
    air_head_m_ = around.head_of_pressure_m(around.air_pressure_Pa);
    vapour_head_m_ = around.head_of_pressure_m(around.water.vapour_pressure_Pa);
  }

  void judge() {
    judge_happenings();
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      judge_pipe(i);
    }
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      judge_place(i);
    }
    const auto worse = [](const Flag& a, const Flag& b) { return a.severity < b.severity; };
    std::stable_sort(answer_.flags.begin(), answer_.flags.end(), worse);
  }

 private:
  [[nodiscard]] bool has_flag(const char* code, const std::string& where) const {
    return std::any_of(answer_.flags.begin(), answer_.flags.end(), [&](const Flag& other) {
      return other.code == code && other.where == where;
    });
  }

  void flag(const char* code,
            FlagSeverity severity,
            const std::string& where,
            std::string text,
            std::optional<double> value = std::nullopt,
            std::optional<double> limit = std::nullopt,
            const char* unit = "",
            std::optional<LoadCase> load_case = std::nullopt) {
    if (has_flag(code, where)) {
      return;
    }
    Flag made;
    made.code = code;
    made.severity = severity;
    made.where = where;
    made.text = std::move(text);
    made.value = value;
    made.limit = limit;
    made.unit = unit;
    made.load_case = load_case.value_or(answer_.load_case);
    answer_.flags.push_back(std::move(made));
  }

  [[nodiscard]] std::string length(double value_m) const { return spoken_length(value_m, units_); }
  [[nodiscard]] std::string level(double value_m) const { return spoken_level(value_m, units_); }
  [[nodiscard]] std::string flow(double value) const { return spoken_flow(value, units_); }

  // ------------------------------------------------------------ what happened on the way

  void judge_happenings() {
    for (const BrokenLine& line : happenings_.broken_lines) {
      const std::string& spring = farm_.places[line.spring].name;
      flag("breaks",
           FlagSeverity::Danger,
           spring,
           fmt::format("{} draws down to its intake and lets air into {}; the high point of {} at "
                       "{} stands {} above the intake, so the siphon breaks and does not start "
                       "again by itself: throttle the outlet until it takes less than the yield",
                       spring,
                       farm_.pipes[line.pipe].name,
                       farm_.pipes[line.high_pipe].name,
                       length(line.high_at_m),
                       length(line.high_elevation_m - line.intake_m)),
           line.high_elevation_m - line.intake_m,
           0.0,
           "m");
    }
    for (const DrawingTee& drawing : happenings_.drawing_tees) {
      const std::string& tee = farm_.places[drawing.tee].name;
      const double elevation = elevation_at(drawing.tee);
      flag(
          "air-in",
          FlagSeverity::Danger,
          tee,
          fmt::format("{} stands {} above the grade line of a full line and draws air in through "
                      "{}, which stands open; solved again with air in {}. A one-way before {}, or "
                      "its end closed, keeps the air out",
                      tee,
                      length(elevation - drawing.head_m),
                      farm_.places[drawing.open_end].name,
                      tee,
                      farm_.places[drawing.open_end].name),
          drawing.head_m - elevation,
          0.0,
          "m");
    }
  }

  double elevation_at(std::size_t place) const { return answer_.places[place].elevation_m; }

  // ------------------------------------------------------------ pipes

  void judge_pipe(std::size_t index) {
    const model::Pipe& pipe = farm_.pipes[index];
    PipeAnswer& water = answer_.pipes[index];
    bool parted = false;
    bool near_vapour = false;
    for (SummitAnswer& summit : water.summits) {
      judge_summit(index, summit);
      parted = parted || summit.parted;
      near_vapour = near_vapour || is_near(summit);
    }
    if (water.summit) {
      for (const SummitAnswer& summit : water.summits) {
        if (summit.at_m == water.summit->at_m) {
          water.summit = summit;
        }
      }
    }
    judge_vents(index);
    const bool over_rating = judge_rating(index);
    const bool backwards = water.flow_m3_s < -still_flow_m3_s;
    if (backwards) {
      judge_backwards(pipe, water);
    }
    if (water.part_full_m > 0.0) {
      flag("part-full",
           FlagSeverity::Note,
           pipe.name,
           fmt::format("{} runs part full over {}, with air above the water",
                       pipe.name,
                       length(water.part_full_m)),
           water.part_full_m,
           0.0,
           "m");
    }
    if (std::abs(water.velocity_m_s) > fast_velocity_m_s) {
      flag("fast",
           FlagSeverity::Note,
           pipe.name,
           fmt::format("water runs at {} in {}: fast for plastic pipe where nobody has worked out "
                       "the knock of a closing valve",
                       spoken_velocity(std::abs(water.velocity_m_s), units_),
                       pipe.name),
           std::abs(water.velocity_m_s),
           fast_velocity_m_s,
           "m/s");
    }
    const bool suction = water.lowest_pressure_Pa && *water.lowest_pressure_Pa < -suction_limit_Pa;
    const bool still = std::abs(water.flow_m3_s) < still_flow_m3_s;
    water.state = parted                    ? PipeState::Parted
                  : near_vapour             ? PipeState::NearVapour
                  : over_rating             ? PipeState::OverRating
                  : backwards               ? PipeState::Backwards
                  : water.part_full_m > 0.0 ? PipeState::PartFull
                  : suction                 ? PipeState::Suction
                  : still                   ? PipeState::Still
                                            : PipeState::Ok;
  }

  void judge_vents(std::size_t index) {
    const PipeEdges& edges = state_.network->pipes[index];
    double spilled = 0.0;
    for (const std::size_t edge : edges.vent_spill) {
      spilled += edge == no_index ? 0.0 : state_.flow_m3_s(edge);
    }
    if (spilled > still_flow_m3_s) {
      flag("spills",
           FlagSeverity::Note,
           farm_.pipes[index].name,
           fmt::format(
               "{} spills {} over the top of its vent", farm_.pipes[index].name, flow(spilled)),
           1000.0 * spilled,
           std::nullopt,
           "L/s");
    }
  }

  static bool is_near(const SummitAnswer& summit) {
    return summit.margin_m && *summit.margin_m < near_vapour_margin_m;
  }

  void judge_summit(std::size_t pipe_index, SummitAnswer& summit) {
    const model::Pipe& pipe = farm_.pipes[pipe_index];
    if (!summit.margin_m) {
      return;
    }
    const std::string where = fmt::format(
        "the summit of {} at {} ({})", pipe.name, length(summit.at_m), level(summit.elevation_m));
    const double storm_margin = *summit.margin_m - storm_share * air_head_m_;
    if (summit.parted || storm_margin <= 0.0) {
      const char* why = summit.parted ? "" : " when a storm lowers the air's pressure";
      summit.parted = true;
      if (has_flag("parted", pipe.name)) {
        return;  // one flag a pipe, and its figure costs many solves
      }
      const std::optional<double> lower = lowering_needed_m(state_, pipe_index, summit.at_m);
      flag("parted",
           FlagSeverity::Danger,
           pipe.name,
           fmt::format("the water parts at {}{}: the pressure there falls to that of its vapour. "
                       "The flow given is an upper bound for minutes; the siphon stops{}",
                       where,
                       why,
                       lower ? fmt::format(". The summit would have to lie {} lower",
                                           spoken_length_at_least(*lower, units_))
                             : ""),
           *summit.margin_m,
           0.0,
           "m");
      return;
    }
    if (is_near(summit)) {
      flag("near-vapour",
           FlagSeverity::Danger,
           pipe.name,
           fmt::format("{} has {} left above the vapour limit: it will gas up and stop. It should "
                       "lie {} lower",
                       where,
                       length(*summit.margin_m),
                       spoken_length_at_least(near_vapour_margin_m - *summit.margin_m, units_)),
           *summit.margin_m,
           near_vapour_margin_m,
           "m");
      return;
    }
    if (*summit.absolute_head_m < low_absolute_head_m) {
      flag("low-pressure",
           FlagSeverity::Caution,
           pipe.name,
           fmt::format("{} runs at {} of water absolute: air comes out of the water there and "
                       "gathers",
                       where,
                       length(*summit.absolute_head_m)),
           *summit.absolute_head_m,
           low_absolute_head_m,
           "m");
    }
  }

  /// Static pressure against the rating; true where it is over.
  bool judge_rating(std::size_t index) {
    const model::Pipe& pipe = farm_.pipes[index];
    const std::optional<StaticPressure>& seen = static_pressures_[index];
    if (!seen || seen->pressure_Pa <= 0.0) {
      return false;
    }
    const std::optional<double> derating = rating_share_of(pipe);
    if (!pipe.size.rating || !derating) {
      flag("no-rating",
           FlagSeverity::Note,
           pipe.name,
           fmt::format("{} sees {} with everything shut and {}",
                       pipe.name,
                       spoken_pressure(seen->pressure_Pa, units_),
                       pipe.size.rating ? "lies in the sun, where its rating does not hold"
                                        : "carries no rating"),
           seen->pressure_Pa / 1000.0,
           std::nullopt,
           "kPa",
           LoadCase::Static);
      return false;
    }
    if (pipe.size.rating_assumed) {
      flag("rating-assumed",
           FlagSeverity::Note,
           pipe.name,
           fmt::format("{} is sold in several ratings; the lowest, {}, is taken for {}: read the "
                       "print on the pipe",
                       pipe.size.text,
                       spoken_pressure(in_pascals(*pipe.size.rating), units_),
                       pipe.name),
           in_kilopascals(*pipe.size.rating),
           std::nullopt,
           "kPa",
           LoadCase::Static);
    }
    const double limit =
        hydraulics::static_share_without_surge * in_pascals(*pipe.size.rating) * *derating;
    if (seen->pressure_Pa <= limit) {
      return false;
    }
    flag("over-rating",
         FlagSeverity::Danger,
         pipe.name,
         fmt::format("with everything shut {} sees {} at {} ({}); {} is the most it may see "
                     "({:.0f} % of its {} rating{}): a tank that breaks the pressure, or stronger "
                     "pipe in the dip",
                     pipe.name,
                     spoken_pressure(seen->pressure_Pa, units_),
                     length(seen->at_m),
                     level(seen->elevation_m),
                     spoken_pressure(limit, units_),
                     100.0 * hydraulics::static_share_without_surge,
                     spoken_pressure(in_pascals(*pipe.size.rating), units_),
                     *derating < 1.0 ? ", less for warmth" : ""),
         seen->pressure_Pa / 1000.0,
         limit / 1000.0,
         "kPa",
         LoadCase::Static);
    return true;
  }

  /// Between two tees a direction is only a way of writing; into open water it is not.
  void judge_backwards(const model::Pipe& pipe, const PipeAnswer& water) {
    const model::Place& source = farm_.places[pipe.from];
    const model::Place& end = farm_.places[pipe.to];
    if (!model::is_open_water(source) && !model::is_open_water(end)) {
      return;
    }
    const bool drains = model::is_open_water(end);
    flag("backwards",
         FlagSeverity::Caution,
         pipe.name,
         fmt::format("{} runs backwards, {} {}: a one-way or a lower end would stop it",
                     pipe.name,
                     flow(-water.flow_m3_s),
                     drains ? "out of " + end.name : "into " + source.name),
         1000.0 * water.flow_m3_s,
         0.0,
         "L/s");
  }

  // ------------------------------------------------------------ places

  void judge_place(std::size_t index) {
    const model::Place& place = farm_.places[index];
    PlaceAnswer& water = answer_.places[index];
    const bool is_source = model::is_open_water(place);
    // A tee that the air drawn at a spring reaches is under no suction.
    // So is an outlet or float that stands open above the water.
    const bool open_end =
        state_.network->places[index].discharge_edge != no_index && water.delivered_m3_s == 0.0;
    const bool airy = open_end || (!state_.air_at.empty() && state_.air_at[index]);
    const double margin = water.head_m && !is_source && !airy
                              ? *water.head_m - water.elevation_m + air_head_m_ - vapour_head_m_
                              : 1e9;
    const bool below = margin < 0.0;
    const bool near = !below && margin < near_vapour_margin_m;
    const bool breaks = has_broken(index);
    const bool cut_off = !is_source && !water.head_m;
    const bool dry = (water.met && *water.met < dry_limit) || cut_off;
    const bool starved = water.met && *water.met < met_limit;
    const bool drawn_down = is_drawn_down(index);
    const bool tee_suction = !airy && std::holds_alternative<model::Tee>(place.data) &&
                             water.pressure_Pa && *water.pressure_Pa < -suction_limit_Pa;
    const bool spilling = water.spill_m3_s && *water.spill_m3_s > still_flow_m3_s;
    water.state = below         ? PlaceState::BelowVapour
                  : near        ? PlaceState::NearVapour
                  : breaks      ? PlaceState::Breaks
                  : dry         ? PlaceState::Dry
                  : starved     ? PlaceState::Starved
                  : drawn_down  ? PlaceState::DrawnDown
                  : tee_suction ? PlaceState::Suction
                  : spilling    ? PlaceState::Spilling
                                : PlaceState::Ok;
    if (below || near) {
      flag_vapour(place, margin);
    }
    if (tee_suction && !below && !near) {
      flag("suction-at-tee",
           FlagSeverity::Caution,
           place.name,
           fmt::format("{} stands {} above the running grade line: a joint that leaks there lets "
                       "air in, unseen",
                       place.name,
                       length(water.elevation_m - *water.head_m)),
           *water.pressure_Pa / 1000.0,
           -suction_limit_Pa / 1000.0,
           "kPa");
    }
    if (cut_off) {
      flag("cut-off",
           FlagSeverity::Note,
           place.name,
           fmt::format("{} is cut off: no open way joins it to water", place.name));
    }
    if (dry && water.met) {
      flag_short("dry", index);
    } else if (starved) {
      flag_short("starved", index);
    }
    flag_source(index, drawn_down, spilling);
    flag_assumptions(index);
  }

  bool has_broken(std::size_t place) const {
    const auto here = [place](const BrokenLine& line) { return line.spring == place; };
    return std::any_of(happenings_.broken_lines.begin(), happenings_.broken_lines.end(), here);
  }

  bool is_drawn_down(std::size_t place) const {
    if (answer_.load_case == LoadCase::Static) {
      return false;
    }
    return std::holds_alternative<model::Spring>(farm_.places[place].data) &&
           is_exhausted(state_, place);
  }

  void flag_vapour(const model::Place& place, double margin) {
    const char* code = margin < 0.0 ? "below-vapour" : "near-vapour";
    flag(code,
         FlagSeverity::Danger,
         place.name,
         margin < 0.0
             ? fmt::format("the pressure at {} would be below that of water vapour: the flow given "
                           "is not to be trusted",
                           place.name)
             : fmt::format("{} has {} left above the vapour limit: it will gas up and stop",
                           place.name,
                           length(margin)),
         margin,
         margin < 0.0 ? 0.0 : near_vapour_margin_m,
         "m");
  }

  /// "north trough"; "lower trough" stays what it is.
  static std::string name_with_kind(const model::Place& place) {
    const std::string kind = model::kind_word(place);
    const std::string& name = place.name;
    const bool says_so = name.size() >= kind.size() &&
                         name.compare(name.size() - kind.size(), kind.size(), kind) == 0;
    return says_so ? name : name + " " + kind;
  }

  void flag_short(const char* code, std::size_t index) {
    const model::Place& place = farm_.places[index];
    const PlaceAnswer& water = answer_.places[index];
    const bool is_trough = std::holds_alternative<model::Trough>(place.data);
    const double need = *water.need_m3_s;
    const std::string got =
        *water.met < dry_limit ? "nothing" : spoken_flow_figure(water.delivered_m3_s, units_);
    flag(code,
         FlagSeverity::Caution,
         place.name,
         fmt::format("{} gets {} of the {} {}: {}",
                     name_with_kind(place),
                     got,
                     flow(need),
                     is_trough ? "it needs" : "wished for",
                     starved_reason(state_, index, happenings_.broken_lines, units_)),
         *water.met,
         1.0);
  }

  void flag_source(std::size_t index, bool drawn_down, bool spilling) {
    const model::Place& place = farm_.places[index];
    const PlaceAnswer& water = answer_.places[index];
    const double taken = -water.delivered_m3_s;
    if (drawn_down) {
      const auto& spring = std::get<model::Spring>(place.data);
      const bool at_intake = *water.level_m <= in_metres(spring.intake) + 1e-6;
      flag("drawn-down",
           FlagSeverity::Note,
           place.name,
           taken > 0.0
               ? fmt::format("the line takes all that {} yields ({}); its box stands at {}{}",
                             place.name,
                             flow(taken),
                             level(*water.level_m),
                             at_intake ? ", down at the intake, and the line draws air" : "")
               : fmt::format("{} yields nothing and its box has drained to {}",
                             place.name,
                             level(*water.level_m)),
           *water.level_m,
           in_metres(spring.overflow),
           "m");
    }
    if (spilling) {
      flag("spills",
           FlagSeverity::Note,
           place.name,
           fmt::format("{} spills {}", place.name, flow(*water.spill_m3_s)),
           1000.0 * *water.spill_m3_s,
           std::nullopt,
           "L/s");
    }
    const auto* creek = std::get_if<model::Creek>(&place.data);
    if (creek == nullptr) {
      return;
    }
    const auto check = [&](const std::optional<model::MonthSeries<Flow>>& allowed,
                           const char* what) {
      if (!allowed) {
        return;
      }
      const double limit = in_cubic_metres_per_second(allowed->at(answer_.month));
      if (taken > limit * (1.0 + 1e-9)) {
        flag("spare-exceeded",
             FlagSeverity::Caution,
             place.name,
             fmt::format("{} is taken from {}, more than the {} {}",
                         flow(taken),
                         place.name,
                         flow(limit),
                         what),
             1000.0 * taken,
             1000.0 * limit,
             "L/s");
      }
    };
    check(creek->spare, "that may be taken");
    check(creek->flow, "it carries");
  }

  void flag_assumptions(std::size_t index) {
    const model::Place& place = farm_.places[index];
    if (const auto* trough = std::get_if<model::Trough>(&place.data)) {
      if (std::holds_alternative<model::NoNeed>(trough->need)) {
        flag(
            "no-need",
            FlagSeverity::Note,
            place.name,
            fmt::format("no need given for {}: its float is taken as never satisfied", place.name));
      }
    }
    if (month_assumed(place)) {
      flag("month-assumed",
           FlagSeverity::Note,
           place.name,
           fmt::format("{} was not measured in {}: a neighbouring month's figure is taken",
                       place.name,
                       model::name_of(*answer_.month)));
    }
  }

  bool month_assumed(const model::Place& place) const {
    const std::optional<model::Month>& month = answer_.month;
    if (const auto* spring = std::get_if<model::Spring>(&place.data)) {
      return spring->yield.assumed_at(month);
    }
    if (const auto* creek = std::get_if<model::Creek>(&place.data)) {
      return creek->surface.assumed_at(month) || (creek->flow && creek->flow->assumed_at(month)) ||
             (creek->spare && creek->spare->assumed_at(month));
    }
    if (const auto* pond = std::get_if<model::Pond>(&place.data)) {
      return pond->surface.assumed_at(month);
    }
    if (const auto* trough = std::get_if<model::Trough>(&place.data)) {
      const auto* rate = std::get_if<model::RateNeed>(&trough->need);
      const auto* daily = std::get_if<model::DailyNeed>(&trough->need);
      const auto* herd = std::get_if<model::HerdNeed>(&trough->need);
      if (herd != nullptr) {
        return std::any_of(herd->herd.begin(), herd->herd.end(), [&](const auto& entry) {
          return entry.heads.assumed_at(month);
        });
      }
      return (rate != nullptr && rate->rate.assumed_at(month)) ||
             (daily != nullptr && daily->per_day.assumed_at(month));
    }
    const auto* outlet = std::get_if<model::Outlet>(&place.data);
    return outlet != nullptr && outlet->wished && outlet->wished->assumed_at(month);
  }

  const FlowState& state_;
  const model::Farm& farm_;
  const Happenings& happenings_;
  const std::vector<std::optional<StaticPressure>>& static_pressures_;
  model::UnitSystem units_;
  SteadyAnswer& answer_;
  double air_head_m_ = 0.0;
  double vapour_head_m_ = 0.0;
};

}  // namespace

void judge(const FlowState& state,
           const Happenings& happenings,
           const std::vector<std::optional<StaticPressure>>& static_pressures,
           model::UnitSystem units,
           SteadyAnswer& answer) {
  Judge(state, happenings, static_pressures, units, answer).judge();
}

}  // namespace leat::solver
