#include "model/catalogue/catalogue_name.h"

namespace leat::model {

std::string plain_name(std::string_view name) {
  std::string plain;
  for (const char letter : name) {
    if (letter == ' ' || letter == '\t' || letter == '\n' || letter == '\r') {
      if (!plain.empty() && plain.back() != ' ') {
        plain += ' ';
      }
    } else {
      plain += letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
    }
  }
  if (!plain.empty() && plain.back() == ' ') {
    plain.pop_back();
  }
  return plain;
}

}  // namespace leat::model
