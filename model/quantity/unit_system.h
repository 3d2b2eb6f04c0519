// The two systems of units that results are shown in.
#pragma once

namespace leat::model {

enum class UnitSystem { Us, Metric };

}  // namespace leat::model
