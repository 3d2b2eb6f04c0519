// The browser of the person at the terminal.
#pragma once

#include <string>

namespace leat::render {

/// Opens the address in the browser of the desktop there is, where a person sits at a terminal of
/// it; what the browser says goes nowhere. Else nothing happens.
void open_in_browser(const std::string& address);

}  // namespace leat::render
