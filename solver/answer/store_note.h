// What was taken for granted of the water a place holds. Sentences: render/words/season_notes.h.
#pragma once

#include <string>

namespace leat::solver {

struct StoreNote {
  enum class Taken {
    SpillsAtTop,   // no spill level is given: it runs over at the top of its shape
    BrimFull,      // its surface stands above where it spills
    Empty,         // its surface stands below its bottom
    HoldsNothing,  // a tank without a size
    Full           // a tank that settles by itself
  };
  std::string place;
  Taken taken = Taken::SpillsAtTop;
};

}  // namespace leat::solver
