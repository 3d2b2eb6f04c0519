#include <algorithm>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "solver/day/farm_of_day.h"
#include "solver/findings/flag_list.h"
#include "solver/findings/states.h"
#include "solver/season/season_findings.h"

namespace leat::solver {

namespace {

/// Less than this over a whole season is not worth a line.
constexpr double least_spill_m3 = 0.01;

struct Figures {
  std::optional<double> value;
  std::optional<double> limit;
  std::string unit;
};

class SeasonFlags {
 public:
  SeasonFlags(const SeasonPast& past, const SeasonAnswer& answer)
      : past_(past), answer_(answer), farm_(past.farm) {}

  std::vector<Flag> find() {
    for (std::size_t i = 0; i < past_.stopped.size(); ++i) {
      flag_stopped(past_.stopped[i], answer_.broken[i].on);
    }
    for (const DrewAir& drew : past_.drew_air) {
      raise("air-in",
            FlagSeverity::Danger,
            farm_.places[drew.tee.tee].name,
            fmt::format("{} draws air in through {}, which stands open, first on {}",
                        farm_.places[drew.tee.tee].name,
                        farm_.places[drew.tee.open_end].name,
                        model::date_text(drew.on)));
    }
    for (const TroughSeason& trough : answer_.troughs) {
      flag_short(trough);
    }
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      flag_creek(i);
      flag_spill(i);
      const auto* trough = std::get_if<model::Trough>(&farm_.places[i].data);
      if (trough != nullptr && std::holds_alternative<model::NoNeed>(trough->need)) {
        raise("no-need",
              FlagSeverity::Note,
              farm_.places[i].name,
              fmt::format("no need given for {}: its float is taken as never satisfied",
                          farm_.places[i].name));
      }
    }
    for (const TankSeason& tank : answer_.tanks) {
      if (tank.ran_empty) {
        flag_empty(tank.place, tank.lowest_m, tank.lowest_on);
      }
    }
    for (const PondSeason& pond : answer_.ponds) {
      if (pond.ran_empty) {
        flag_empty(pond.place, pond.lowest_m, pond.lowest_on);
      }
    }
    return std::move(flags_).sorted();
  }

 private:
  void raise(const char* code,
             FlagSeverity severity,
             const std::string& where,
             std::string text,
             Figures figures = {}) {
    Flag flag;
    flag.code = code;
    flag.severity = severity;
    flag.where = where;
    flag.text = std::move(text);
    flag.value = figures.value;
    flag.limit = figures.limit;
    flag.unit = std::move(figures.unit);
    flags_.raise(std::move(flag));
  }

  void flag_stopped(const StoppedLine& stopped, model::Date on) {
    const BrokenLine& line = stopped.line;
    const std::string& pipe = farm_.pipes[line.pipe].name;
    const std::string& place = farm_.places[line.spring].name;
    if (stopped.parted) {
      raise(
          "parted",
          FlagSeverity::Danger,
          pipe,
          fmt::format("on {} the water in {} parts at its summit ({}) and the line stops; it stays "
                      "stopped until primed again",
                      model::date_text(on),
                      pipe,
                      spoken_level(line.high_elevation_m, past_.units)));
      return;
    }
    const double above_m = line.high_elevation_m - line.intake_m;
    raise("breaks",
          FlagSeverity::Danger,
          place,
          fmt::format(
              "on {} {} draws down to its intake, {} below the high point of {}: {} draws air "
              "and breaks; it stays broken until primed again",
              model::date_text(on),
              place,
              spoken_length(above_m, past_.units),
              farm_.pipes[line.high_pipe].name,
              pipe),
          {above_m, 0.0, "m"});
  }

  void flag_short(const TroughSeason& trough) {
    constexpr double told_apart = 1e-6;  // of months alike the first is told
    const MonthAtTrough* worst = nullptr;
    double dry_h = 0.0;
    for (const MonthAtTrough& month : trough.months) {
      dry_h += month.dry_h;
      if (month.met && *month.met < met_limit &&
          (worst == nullptr || *month.met < *worst->met - told_apart)) {
        worst = &month;
      }
    }
    if (worst == nullptr) {
      return;
    }
    const std::string& name = farm_.places[trough.place].name;
    const bool is_dry = *worst->met < dry_limit;
    const std::string got =
        is_dry ? "nothing" : fmt::format("{:.0f} % of its need", percent_met(*worst->met));
    raise(is_dry ? "dry" : "starved",
          FlagSeverity::Caution,
          name,
          fmt::format("{} gets {} in {} {}{}, short for {:.0f} h in all: {}",
                      name,
                      got,
                      model::name_of(worst->month),
                      worst->year,
                      trough.first_dry
                          ? fmt::format(", short from {}", model::date_text(*trough.first_dry))
                          : std::string(),
                      dry_h,
                      worst->reason),
          {*worst->met, 1.0, ""});
  }

  void flag_creek(std::size_t place) {
    const auto& worst = past_.books.exceeded()[place];
    if (worst) {
      raise("spare-exceeded",
            FlagSeverity::Caution,
            farm_.places[place].name,
            fmt::format("on {} {} is taken from {}, more than the {} that may be taken",
                        model::date_text(worst->on),
                        spoken_flow(worst->taken_m3_s, past_.units),
                        farm_.places[place].name,
                        spoken_flow(worst->spare_m3_s, past_.units)),
            {1000.0 * worst->taken_m3_s, 1000.0 * worst->spare_m3_s, "L/s"});
    }
  }

  void flag_spill(std::size_t place) {
    const double spilled_m3 = past_.books.spilled_m3()[place];
    if (spilled_m3 < least_spill_m3) {
      return;
    }
    const std::string& name = farm_.places[place].name;
    for (const model::FloatBreak& broken : farm_.breaks) {
      if (broken.place == place && broken.on <= answer_.to) {
        raise("spills",
              FlagSeverity::Note,
              name,
              fmt::format("the float of {} hangs open from {}: {} run over there",
                          name,
                          model::date_text(broken.on),
                          spoken_volume(spilled_m3, past_.units)),
              {spilled_m3, std::nullopt, "m3"});
        return;
      }
    }
    raise("spills",
          FlagSeverity::Note,
          name,
          fmt::format("{} runs over: {} in all", name, spoken_volume(spilled_m3, past_.units)),
          {spilled_m3, std::nullopt, "m3"});
  }

  void flag_empty(std::size_t place, double lowest_m, model::Date on) {
    const StoreLaw& store = *past_.stores.find(place);
    const std::optional<double> mouth_m = lowest_mouth_m(farm_, store);
    raise("drawn-down",
          FlagSeverity::Note,
          farm_.places[place].name,
          fmt::format("{} falls to {} on {}, {}",
                      farm_.places[place].name,
                      spoken_level(lowest_m, past_.units),
                      model::date_text(on),
                      mouth_m ? "down at the mouth of its lowest pipe" : "down at its bottom"),
          {lowest_m, mouth_m.value_or(store.bottom_m), "m"});
  }

  const SeasonPast& past_;
  const SeasonAnswer& answer_;
  const model::Farm& farm_;
  FlagList flags_;
};

}  // namespace

std::vector<Flag> season_flags(const SeasonPast& past, const SeasonAnswer& answer) {
  return SeasonFlags(past, answer).find();
}

}  // namespace leat::solver
