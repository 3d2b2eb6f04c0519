#include "model/edit/pipe_resize.h"

#include <string_view>
#include <variant>

#include "model/catalogue/fitting_catalogue.h"
#include "model/quantity/quantity_text.h"

namespace leat::model {
namespace {

constexpr std::string_view contraction = "contraction from ";
constexpr std::string_view expansion = "expansion to ";

void fit_to_bore(Fitting& fitting, Length bore) {
  const std::string_view name = fitting.name;
  if (const CatalogueFitting* const row = find_fitting(name)) {
    fitting.loss_coefficient = loss_coefficient(*row, bore);
    fitting.lifting_velocity = lifting_velocity(*row, bore);
    return;
  }
  const bool narrows = name.starts_with(contraction);
  if (!narrows && !name.starts_with(expansion)) {
    return;
  }
  const auto other = parse_length(name.substr(narrows ? contraction.size() : expansion.size()));
  if (const auto* const length = std::get_if<Length>(&other)) {
    fitting.loss_coefficient = narrows ? contraction_k(bore, *length) : expansion_k(bore, *length);
  }
}

}  // namespace

Pipe in_size(Pipe pipe, const PipeSize& size) {
  pipe.size = size;
  for (Fitting& fitting : pipe.fittings) {
    fit_to_bore(fitting, size.bore);
  }
  return pipe;
}

}  // namespace leat::model
