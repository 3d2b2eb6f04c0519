#include "solver/size/pipe_for_sale.h"

#include <algorithm>
#include <numbers>

#include "model/catalogue/pipe_catalogue.h"

namespace leat::solver {

namespace {

/// Hose and other pipe without a wall in the catalogue: common practice, no source [m].
constexpr double usual_wall_m = 0.003;

/// "in SIDR 15, 100 psi" of "1 in SIDR 15, 100 psi": everything but the size's own figure.
std::string kind_of(const std::string& name) {
  const std::size_t blank = name.find(' ');
  return blank == std::string::npos ? std::string() : name.substr(blank + 1);
}

double wall_section_mm2(const model::PipeSize& size) {
  const double wall_m = size.wall ? in_metres(*size.wall) : usual_wall_m;
  const double bore_m = in_metres(size.bore);
  return std::numbers::pi * wall_m * (bore_m + wall_m) * 1e6;
}

/// What stands behind the size's figure in the names of pipe the farm already has.
std::vector<std::string> kinds_on(const model::Farm& farm) {
  std::vector<std::string> kinds;
  const auto add = [&](const std::string& name) {
    const std::string kind = kind_of(name);
    if (!kind.empty() && model::find_pipe_size(name) &&
        std::find(kinds.begin(), kinds.end(), kind) == kinds.end()) {
      kinds.push_back(kind);
    }
  };
  for (const model::Pipe& pipe : farm.pipes) {
    const bool is_hose = pipe.size.material == model::PipeMaterial::Hose ||
                         pipe.size.material == model::PipeMaterial::SuctionHose;
    if (!pipe.size.choose && !is_hose) {
      add(pipe.size.text);
    }
  }
  for (const model::PipeStock& held : farm.stock) {
    add(held.size);
  }
  if (kinds.empty()) {
    kinds.emplace_back(model::usual_kind_of_pipe(farm.show));
  }
  return kinds;
}

class ListMaker {
 public:
  explicit ListMaker(const model::Farm& farm) : farm_(farm) {}

  PipeList make() {
    list_.has_prices = !farm_.pipe_prices.empty();
    if (list_.has_prices) {
      for (const model::PipePrice& price : farm_.pipe_prices) {
        entry(price.size)->per_metre = price.per_metre;
      }
    } else {
      add_kinds();
    }
    for (const model::PipeStock& held : farm_.stock) {
      entry(held.size)->stock_m = in_metres(held.length);
    }
    std::stable_sort(list_.sizes.begin(), list_.sizes.end(), [](const auto& a, const auto& b) {
      return a.size.bore < b.size.bore;
    });
    return std::move(list_);
  }

 private:
  PipeForSale* entry(const std::string& name) {
    for (PipeForSale& sale : list_.sizes) {
      if (sale.size.text == name) {
        return &sale;
      }
    }
    list_.sizes.push_back({*model::find_pipe_size(name), std::nullopt, 0.0});
    return &list_.sizes.back();
  }

  void add_kinds() {
    for (const std::string& kind : kinds_on(farm_)) {
      list_.kind += (list_.kind.empty() ? "" : " and ") + kind.substr(kind.find(' ') + 1);
      const std::size_t comma = kind.find(',');
      const std::string plain = kind.substr(0, comma);
      for (const model::CataloguePipe& row : model::pipe_catalogue()) {
        if (kind_of(row.size.text) == plain) {
          const std::string name =
              row.size.text + (comma == std::string::npos ? "" : kind.substr(comma));
          PipeForSale* const sale = entry(name);
          sale->per_metre = wall_section_mm2(sale->size);
        }
      }
    }
  }

  const model::Farm& farm_;
  PipeList list_;
};

}  // namespace

PipeList pipe_list(const model::Farm& farm) {
  return ListMaker(farm).make();
}

}  // namespace leat::solver
