// Any bytes as the CSV file of a pipe's path.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "model/keys/path_csv.h"
#include "model/text/problem_list.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  using namespace leat::model;
  const std::string_view text(reinterpret_cast<const char*>(bytes), size);
  ProblemList problems("fuzz.yaml");
  const auto points = read_path_csv(text, "fuzz.csv", problems);
  // A path that was refused must have said why.
  if (!points && problems.count() == 0) {
    __builtin_trap();
  }
  return 0;
}
