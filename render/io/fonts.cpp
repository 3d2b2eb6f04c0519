#include "render/io/fonts.h"

#ifdef LEAT_FONTCONFIG
#include <fontconfig/fontconfig.h>
#endif

namespace leat::render {

#ifdef LEAT_FONTCONFIG

bool has_fonts() {
  FcPattern* const any = FcPatternCreate();
  FcObjectSet* const family = FcObjectSetCreate();
  FcObjectSetAdd(family, FC_FAMILY);
  FcFontSet* const found = FcFontList(nullptr, any, family);
  const bool has_some = found != nullptr && found->nfont > 0;
  if (found != nullptr) {
    FcFontSetDestroy(found);
  }
  FcObjectSetDestroy(family);
  FcPatternDestroy(any);
  return has_some;
}

#else

bool has_fonts() {
  return true;
}

#endif

}  // namespace leat::render
