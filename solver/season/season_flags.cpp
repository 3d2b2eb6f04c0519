#include <optional>
#include <string>
#include <utility>
#include <variant>

#include "solver/day/farm_of_day.h"
#include "solver/findings/finding_list.h"
#include "solver/findings/states.h"
#include "solver/season/season_findings.h"

namespace leat::solver {

namespace {

/// Less than this over a whole season is not worth a line.
constexpr double least_spill_m3 = 0.01;

/// A figure with its limit, for `raise`.
class SeasonFlags {
 public:
  SeasonFlags(const SeasonPast& past, const SeasonAnswer& answer)
      : past_(past), answer_(answer), farm_(past.farm) {}

  std::vector<Finding> find() {
    for (std::size_t i = 0; i < past_.stopped.size(); ++i) {
      flag_stopped(past_.stopped[i], answer_.broken[i].on);
    }
    for (const DatedAirEntry& air : past_.air_entries) {
      raise(Code::AirIn,
            Severity::Danger,
            farm_.places[air.entry.tee].name,
            LineDrawsAir{farm_.places[air.entry.open_end].name, air.on});
    }
    for (const TroughSeason& trough : answer_.troughs) {
      flag_short(trough);
    }
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      flag_creek(i);
      flag_spill(i);
      const model::Need* need = model::need_of_stock(farm_.places[i]);
      if (need != nullptr && std::holds_alternative<model::NoNeed>(*need)) {
        raise(Code::NoNeed, Severity::Note, farm_.places[i].name, NoNeedGiven{});
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
    return std::move(found_).sorted();
  }

 private:
  void raise(Code code,
             Severity severity,
             const std::string& where,
             Detail detail,
             const Measured& measured = {}) {
    found_.raise(made_finding(code, severity, where, LoadCase::Needs, measured, std::move(detail)));
  }

  void flag_stopped(const StoppedLine& stopped, model::Date on) {
    const BrokenLine& line = stopped.line;
    const std::string& pipe = farm_.pipes[line.pipe].name;
    if (stopped.parted) {
      raise(Code::Parted, Severity::Danger, pipe, LineParts{on, line.high_elevation_m});
      return;
    }
    raise(Code::Breaks,
          Severity::Danger,
          farm_.places[line.spring].name,
          LineBreaks{on, pipe, farm_.pipes[line.high_pipe].name},
          {line.high_elevation_m - line.intake_m, 0.0, Measure::Length});
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
    raise(*worst->met < dry_limit ? Code::Dry : Code::Starved,
          Severity::Caution,
          farm_.places[trough.place].name,
          ShortInMonth{.year = worst->year,
                       .month = worst->month,
                       .short_from = trough.first_dry,
                       .dry_h = dry_h,
                       .reason = worst->reason.value_or(SeasonReason{})},
          {*worst->met, 1.0, Measure::Ratio});
  }

  void flag_creek(std::size_t place) {
    const auto& worst = past_.account.exceeded()[place];
    if (worst) {
      raise(Code::SpareExceeded,
            Severity::Caution,
            farm_.places[place].name,
            TakesMoreThanSpare{worst->on},
            {worst->taken_m3_s, worst->spare_m3_s, Measure::Flow});
    }
  }

  void flag_spill(std::size_t place) {
    const double spilled_m3 = past_.account.spilled_m3()[place];
    if (spilled_m3 < least_spill_m3) {
      return;
    }
    RunsOver detail;
    for (const model::FloatBreak& broken : farm_.breaks) {
      if (broken.place == place && broken.on <= answer_.to) {
        detail.float_hangs_from = broken.on;
        break;
      }
    }
    raise(Code::Spills,
          Severity::Note,
          farm_.places[place].name,
          detail,
          {spilled_m3, std::nullopt, Measure::Volume});
  }

  void flag_empty(std::size_t place, double lowest_m, model::Date on) {
    const StoreLaw& store = *past_.stores.find(place);
    const std::optional<double> mouth_m = lowest_mouth_m(farm_, store);
    raise(Code::DrawnDown,
          Severity::Note,
          farm_.places[place].name,
          RunsEmpty{on, mouth_m.has_value()},
          {lowest_m, mouth_m.value_or(store.bottom_m), Measure::Length});
  }

  const SeasonPast& past_;
  const SeasonAnswer& answer_;
  const model::Farm& farm_;
  FindingList found_;
};

}  // namespace

std::vector<Finding> season_flags(const SeasonPast& past, const SeasonAnswer& answer) {
  return SeasonFlags(past, answer).find();
}

}  // namespace leat::solver
