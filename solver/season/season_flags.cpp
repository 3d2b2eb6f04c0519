#include <algorithm>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "solver/compare/compare_words.h"
#include "solver/day/farm_of_day.h"
#include "solver/findings/finding_list.h"
#include "solver/findings/states.h"
#include "solver/season/season_findings.h"

namespace leat::solver {

namespace {

/// Less than this over a whole season is not worth a line.
constexpr double least_spill_m3 = 0.01;

struct Figures {
  std::optional<double> value;
  std::optional<double> limit;
  Measure measure = Measure::Ratio;
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
      raise(Code::AirIn,
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
        raise(Code::NoNeed,
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
  void raise(Code code,
             FlagSeverity severity,
             const std::string& where,
             std::string text,
             Figures figures = {}) {
    Flag flag;
    flag.code = code;
    flag.severity = severity;
    flag.where = where;
    flag.detail = WrittenText{std::move(text)};
    flag.value = figures.value;
    flag.limit = figures.limit;
    flag.measure = figures.measure;
    flags_.raise(std::move(flag));
  }

  void flag_stopped(const StoppedLine& stopped, model::Date on) {
    const BrokenLine& line = stopped.line;
    const std::string& pipe = farm_.pipes[line.pipe].name;
    const std::string& place = farm_.places[line.spring].name;
    if (stopped.parted) {
      raise(
          Code::Parted,
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
    raise(Code::Breaks,
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
          {above_m, 0.0, Measure::Length});
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
        is_dry ? "nothing" : fmt::format("{} of its need", share_words(*worst->met));
    raise(is_dry ? Code::Dry : Code::Starved,
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
          {*worst->met, 1.0, Measure::Ratio});
  }

  void flag_creek(std::size_t place) {
    const auto& worst = past_.books.exceeded()[place];
    if (worst) {
      raise(Code::SpareExceeded,
            FlagSeverity::Caution,
            farm_.places[place].name,
            fmt::format("on {} {} is taken from {}, more than the {} that may be taken",
                        model::date_text(worst->on),
                        spoken_flow(worst->taken_m3_s, past_.units),
                        farm_.places[place].name,
                        spoken_flow(worst->spare_m3_s, past_.units)),
            {worst->taken_m3_s, worst->spare_m3_s, Measure::Flow});
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
        raise(Code::Spills,
              FlagSeverity::Note,
              name,
              fmt::format("the float of {} hangs open from {}: {} run over there",
                          name,
                          model::date_text(broken.on),
                          spoken_volume(spilled_m3, past_.units)),
              {spilled_m3, std::nullopt, Measure::Volume});
        return;
      }
    }
    raise(Code::Spills,
          FlagSeverity::Note,
          name,
          fmt::format("{} runs over: {} in all", name, spoken_volume(spilled_m3, past_.units)),
          {spilled_m3, std::nullopt, Measure::Volume});
  }

  void flag_empty(std::size_t place, double lowest_m, model::Date on) {
    const StoreLaw& store = *past_.stores.find(place);
    const std::optional<double> mouth_m = lowest_mouth_m(farm_, store);
    raise(Code::DrawnDown,
          FlagSeverity::Note,
          farm_.places[place].name,
          fmt::format("{} falls to {} on {}, {}",
                      farm_.places[place].name,
                      spoken_level(lowest_m, past_.units),
                      model::date_text(on),
                      mouth_m ? "down at the mouth of its lowest pipe" : "down at its bottom"),
          {lowest_m, mouth_m.value_or(store.bottom_m), Measure::Length});
  }

  const SeasonPast& past_;
  const SeasonAnswer& answer_;
  const model::Farm& farm_;
  FindingList flags_;
};

}  // namespace

std::vector<Flag> season_flags(const SeasonPast& past, const SeasonAnswer& answer) {
  return SeasonFlags(past, answer).find();
}

}  // namespace leat::solver
