#include <fmt/format.h>

#include "render/commands/report/bill_of_materials.h"
#include "render/commands/report/chapters.h"
#include "render/words/number_text.h"

namespace leat::render::report {

namespace {

constexpr int money_decimals = 2;

std::string money(const std::optional<double>& amount) {
  return amount ? decimal_text(*amount, money_decimals) : "-";
}

/// Pipe is priced by the length the farm shows.
std::string money_a_length(const std::optional<double>& per_metre, model::UnitSystem units) {
  if (!per_metre) {
    return "-";
  }
  return money(units == model::UnitSystem::Us ? *per_metre * in_metres(feet(1.0)) : *per_metre);
}

std::string rating_text(const model::PipeSize& size, model::UnitSystem units) {
  if (!size.rating) {
    return "-";
  }
  return pressure_number_text(*size.rating, units) + (size.rating_assumed ? " (assumed)" : "");
}

const char* where_it_lies(model::Lies lies) {
  switch (lies) {
    case model::Lies::Unsaid:
      return "-";
    case model::Lies::Buried:
      return "buried";
    case model::Lies::Grass:
      return "in grass";
    case model::Lies::Sun:
      return "in the sun";
  }
  return "-";
}

TextTable pipe_list(const Subject& subject) {
  const std::string length(length_unit(subject.units));
  const std::string pressure(pressure_unit(subject.units));
  TextTable table{{{"pipes", Align::Left},
                   {"from", Align::Left},
                   {"to", Align::Left},
                   {"size", Align::Left},
                   {"bore, mm", Align::Right},
                   {"bore, in", Align::Right},
                   {"length, " + length, Align::Right},
                   {"rating, " + pressure, Align::Right},
                   {"lies", Align::Left}},
                  {}};
  for (const model::Pipe& pipe : subject.farm.pipes) {
    table.rows.push_back({pipe.name,
                          subject.farm.places[pipe.from].name,
                          subject.farm.places[pipe.to].name,
                          pipe.size.text,
                          bore_number_text(pipe.size.bore, model::UnitSystem::Metric),
                          bore_number_text(pipe.size.bore, model::UnitSystem::Us),
                          length_number_text(pipe.length, subject.units),
                          rating_text(pipe.size, subject.units),
                          where_it_lies(pipe.lies)});
  }
  return table;
}

TextTable pipe_bill(const BillOfMaterials& bill, model::UnitSystem units) {
  const std::string length(length_unit(units));
  TextTable table{{{"pipe by size", Align::Left},
                   {"length, " + length, Align::Right},
                   {"in store", Align::Right},
                   {"to buy", Align::Right},
                   {"price per " + length, Align::Right},
                   {"cost", Align::Right}},
                  {}};
  for (const PipeItem& item : bill.pipes) {
    table.rows.push_back({item.size.text,
                          length_number_text(metres(item.length_m), units),
                          length_number_text(metres(item.stock_m), units),
                          length_number_text(metres(item.length_m - item.stock_m), units),
                          money_a_length(item.per_metre, units),
                          money(item.cost)});
  }
  return table;
}

TextTable fitting_bill(const BillOfMaterials& bill) {
  TextTable table{{{"valves and fittings", Align::Left},
                   {"pieces", Align::Right},
                   {"price each", Align::Right},
                   {"cost", Align::Right}},
                  {}};
  for (const FittingItem& item : bill.fittings) {
    table.rows.push_back(
        {item.name, fmt::format("{}", item.count), money(item.each), money(item.cost)});
  }
  return table;
}

std::string sum_of(const BillOfMaterials& bill) {
  if (!bill.has_prices) {
    return "The file holds no prices, so nothing is reckoned up. Write them under 'prices'.";
  }
  const std::string sum = decimal_text(bill.priced, money_decimals);
  return bill.is_complete
             ? fmt::format("All of it comes to {}, in the money of the file's prices.", sum)
             : fmt::format(
                   "What has a price comes to {}, in the money of the file's prices; what "
                   "shows '-' is not in that sum.",
                   sum);
}

}  // namespace

Chapter materials_chapter(const Subject& subject) {
  const BillOfMaterials bill = bill_of_materials(subject.farm);
  Chapter chapter{"materials", "Pipes and materials", {}};
  chapter.blocks.emplace_back(Figures{pipe_list(subject), "pipe"});
  chapter.blocks.emplace_back(Figures{pipe_bill(bill, subject.units), "size"});
  chapter.blocks.emplace_back(Figures{fitting_bill(bill), "piece"});
  chapter.blocks.emplace_back(Paragraph{sum_of(bill)});
  chapter.blocks.emplace_back(Paragraph{
      "Lengths are those of the file, along the pipe. Couplers, clamps, thread tape and some pipe "
      "to spare (a tenth more is common practice, no source) come on top."});
  return chapter;
}

}  // namespace leat::render::report
