// What a page asks of the server, read strictly.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/edit/edit.h"
#include "render/page/live_farm.h"
#include "render/page/page_view.h"

namespace leat::render {

/// The changes of one request, and what the page looks at.
struct EditRequest {
  std::vector<model::TextEdit> parts;
  EditRun run = EditRun::New;
  PageView view;
};

/// Words of a view by name: case, month, broken. None where one is not known.
[[nodiscard]] std::optional<PageView> read_view(const std::map<std::string, std::string>& words);

/// {"path": [...], "text": "..."} or {"edits": [{path, text}, ...]}, with "continued" and "view"; a
/// null text takes the key out. None where it is not written so.
[[nodiscard]] std::optional<EditRequest> read_edit(std::string_view body);

/// The name of {"name": "..."}.
[[nodiscard]] std::optional<std::string> read_name(std::string_view body);

/// The view of {"view": {...}}; a plain one where there is none.
[[nodiscard]] std::optional<PageView> read_view_of(std::string_view body);

}  // namespace leat::render
