// How much is told.
#pragma once

namespace leat::render {

enum class Detail { Short, Verbose };

}  // namespace leat::render
