// The keys of the site: air and water at the farm.
#pragma once

#include "model/keys/key.h"

namespace leat::model {

[[nodiscard]] const Keys<Site>& site_keys();

/// Reads `site`; `key` is where that word stands.
[[nodiscard]] Site read_site(const YamlNode& node, SourcePosition key, LoadContext& context);

}  // namespace leat::model
