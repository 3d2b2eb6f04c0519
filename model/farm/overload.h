// A visitor of a variant made of one function for each alternative.
#pragma once

namespace leat {

/// `std::visit(Overload{[](const Spring& spring) {...}, [](const Creek& creek) {...}, ...}, data)`:
/// without a function that takes anything, an alternative that is missing does not compile.
template <class... Functions>
struct Overload : Functions... {
  using Functions::operator()...;
};
template <class... Functions>
Overload(Functions...) -> Overload<Functions...>;

}  // namespace leat
