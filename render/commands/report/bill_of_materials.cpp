#include "render/commands/report/bill_of_materials.h"

#include <algorithm>
#include <string_view>
#include <variant>

#include "render/words/valve_word.h"

namespace leat::render::report {

namespace {

/// "1 in SIDR 15" of "1 in SIDR 15, 100 psi".
std::string_view without_rating(std::string_view size) {
  return size.substr(0, size.find(','));
}

/// The entry that names the size as written, else the one that names it without a rating.
template <class Entry>
const Entry* entry_for(const std::vector<Entry>& entries, const std::string& size) {
  const Entry* plain = nullptr;
  for (const Entry& entry : entries) {
    if (entry.size == size) {
      return &entry;
    }
    if (plain == nullptr && entry.size == without_rating(size)) {
      plain = &entry;
    }
  }
  return plain;
}

class BillMaker {
 public:
  explicit BillMaker(const model::Farm& farm) : farm_(farm) {}

  BillOfMaterials make() {
    for (const model::Pipe& pipe : farm_.pipes) {
      add_pipe(pipe);
      add_pieces_of(pipe);
    }
    for (const model::Place& place : farm_.places) {
      if (model::is_trough(place)) {
        add("float valve", 1);
      }
    }
    add("pump", static_cast<int>(farm_.pumps.size()));
    add("ram", static_cast<int>(farm_.rams.size()));
    price_pipes();
    price_fittings();
    return std::move(bill_);
  }

 private:
  void add_pipe(const model::Pipe& pipe) {
    for (PipeItem& item : bill_.pipes) {
      if (item.size.text == pipe.size.text && item.size.bore == pipe.size.bore) {
        item.length_m += in_metres(pipe.length);
        return;
      }
    }
    bill_.pipes.push_back({pipe.size, in_metres(pipe.length), 0.0, std::nullopt, std::nullopt});
  }

  void add_pieces_of(const model::Pipe& pipe) {
    for (const model::Fitting& fitting : pipe.fittings) {
      if (fitting.name != "k") {
        add(fitting.name, fitting.count);
      }
    }
    if (pipe.valve) {
      add(valve_word(pipe.valve->type), 1);
    }
    const bool has_check = std::any_of(pipe.fittings.begin(),
                                       pipe.fittings.end(),
                                       [](const auto& fitting) { return fitting.one_way; });
    add("check valve of no kind named", pipe.one_way && !has_check ? 1 : 0);
    add("vent", static_cast<int>(pipe.vents.size()));
    add("pressure regulator", pipe.regulator ? 1 : 0);
  }

  void add(const std::string& name, int count) {
    if (count == 0) {
      return;
    }
    for (FittingItem& item : bill_.fittings) {
      if (item.name == name) {
        item.count += count;
        return;
      }
    }
    bill_.fittings.push_back({name, count, std::nullopt, std::nullopt});
  }

  void price_pipes() {
    bill_.has_prices = !farm_.pipe_prices.empty() || !farm_.fitting_prices.empty();
    bill_.is_complete = bill_.has_prices;
    std::vector<double> left_m;  // of each heap of stock, which several ratings may share
    for (const model::PipeStock& held : farm_.stock) {
      left_m.push_back(in_metres(held.length));
    }
    for (PipeItem& item : bill_.pipes) {
      if (const model::PipeStock* const held = entry_for(farm_.stock, item.size.text)) {
        double& left = left_m[static_cast<std::size_t>(held - farm_.stock.data())];
        item.stock_m = std::min(left, item.length_m);
        left -= item.stock_m;
      }
      if (const model::PipePrice* const price = entry_for(farm_.pipe_prices, item.size.text)) {
        item.per_metre = price->per_metre;
      }
      const double bought_m = item.length_m - item.stock_m;
      if (bought_m <= 0.0) {
        item.cost = 0.0;
      } else if (item.per_metre) {
        item.cost = bought_m * *item.per_metre;
      }
      count(item.cost);
    }
  }

  void price_fittings() {
    for (FittingItem& item : bill_.fittings) {
      for (const model::FittingPrice& price : farm_.fitting_prices) {
        if (price.fitting == item.name) {
          item.each = price.each;
          item.cost = price.each * item.count;
        }
      }
      count(item.cost);
    }
  }

  void count(const std::optional<double>& cost) {
    bill_.priced += cost.value_or(0.0);
    bill_.is_complete = bill_.is_complete && cost;
  }

  const model::Farm& farm_;
  BillOfMaterials bill_;
};

}  // namespace

BillOfMaterials bill_of_materials(const model::Farm& farm) {
  return BillMaker(farm).make();
}

}  // namespace leat::render::report
