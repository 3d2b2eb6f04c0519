// A pipe laid in another size: what follows from its bore is worked out anew.
#pragma once

#include "model/farm/farm.h"

namespace leat::model {

/// The pipe in that size: the fittings of the catalogue and the changes of bore get the K they have
/// at the new bore; a K of one's own ("k 2.5"), and all else, stays.
[[nodiscard]] Pipe in_size(Pipe pipe, const PipeSize& size);

}  // namespace leat::model
