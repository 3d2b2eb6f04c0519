// Any bytes as what a page sends: read as an edit, a name and a view; an edit is made on a farm and
// taken back.
#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>

#include "model/keys/farm_file.h"
#include "render/page/live_farm.h"
#include "render/page/page_request.h"
#include "tests/fuzz/page_farm.h"

namespace {

void demand(bool is_so) {
  if (!is_so) {
    __builtin_trap();
  }
}

/// The bytes as the words of an address: key=word, one a line.
std::map<std::string, std::string> words_in(std::string_view text) {
  std::map<std::string, std::string> words;
  while (!text.empty()) {
    const std::string_view line = text.substr(0, text.find('\n'));
    text.remove_prefix(std::min(text.size(), line.size() + 1));
    const std::size_t sign = line.find('=');
    if (sign != std::string_view::npos) {
      words[std::string(line.substr(0, sign))] = line.substr(sign + 1);
    }
  }
  return words;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  using namespace leat;
  const std::string_view text(reinterpret_cast<const char*>(bytes), size);
  (void)render::read_name(text);
  (void)render::read_view_of(text);
  (void)render::read_view(words_in(text));
  const auto edit = render::read_edit(text);
  if (!edit) {
    return 0;
  }
  demand(!edit->parts.empty());
  static const model::LoadedFarm loaded = model::load_farm(fuzz::page_farm, "fuzz.yaml");
  render::LiveFarm farm("fuzz.yaml", loaded);
  const auto before = farm.now();
  const auto refusal = farm.change(edit->parts, edit->run);
  const auto after = farm.now();
  if (refusal) {
    // What was refused has words for it and changed nothing.
    demand(!refusal->text.empty() && after->version == before->version);
    return 0;
  }
  demand(after->tried.farm.has_value() && after->saved.source == before->saved.source);
  // Read again, the text is the same sound farm; undo brings the old one back to the byte.
  demand(model::load_farm(after->tried.source, "fuzz.yaml").farm.has_value());
  farm.undo();
  demand(farm.now()->tried.source == before->tried.source && farm.now()->touched.empty());
  return 0;
}
