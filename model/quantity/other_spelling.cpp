#include "model/quantity/other_spelling.h"

#include <array>
#include <cctype>
#include <string>

#include "model/quantity/lower_case.h"

namespace leat::model {
namespace {

/// Spellings people try; compared without case, but for those that change their meaning with it.
constexpr std::array other_spellings = {
    OtherSpelling{"feet", "ft"},
    OtherSpelling{"foot", "ft"},
    OtherSpelling{"ft.", "ft"},
    OtherSpelling{"'", "ft"},
    OtherSpelling{"inch", "in"},
    OtherSpelling{"inches", "in"},
    OtherSpelling{"in.", "in"},
    OtherSpelling{"\"", "in"},
    OtherSpelling{"yard", "yd"},
    OtherSpelling{"yards", "yd"},
    OtherSpelling{"mile", "mi"},
    OtherSpelling{"miles", "mi"},
    OtherSpelling{"metre", "m"},
    OtherSpelling{"metres", "m"},
    OtherSpelling{"meter", "m"},
    OtherSpelling{"meters", "m"},
    OtherSpelling{"litre", "L"},
    OtherSpelling{"litres", "L"},
    OtherSpelling{"liter", "L"},
    OtherSpelling{"liters", "L"},
    OtherSpelling{"gallon", "gal"},
    OtherSpelling{"gallons", "gal"},
    OtherSpelling{"gals", "gal"},
    OtherSpelling{"us gal", "gal"},
    OtherSpelling{"us gallons", "gal"},
    OtherSpelling{"imperial gal", "imp gal"},
    OtherSpelling{"imp gallons", "imp gal"},
    OtherSpelling{"imperial gallons", "imp gal"},
    OtherSpelling{"qt", "gal", 0.25},
    OtherSpelling{"quarts", "gal", 0.25},
    OtherSpelling{"cubic metres", "m3"},
    OtherSpelling{"cubic meters", "m3"},
    OtherSpelling{"m\u00b3", "m3"},
    OtherSpelling{"m^3", "m3"},
    OtherSpelling{"cubic feet", "ft3"},
    OtherSpelling{"cu ft", "ft3"},
    OtherSpelling{"ft\u00b3", "ft3"},
    OtherSpelling{"ft^3", "ft3"},
    OtherSpelling{"ML", "m3", 1000.0},
    OtherSpelling{"acre ft", "acre-ft"},
    OtherSpelling{"acre feet", "acre-ft"},
    OtherSpelling{"acre-feet", "acre-ft"},
    OtherSpelling{"acre-foot", "acre-ft"},
    OtherSpelling{"acre in", "acre-in"},
    OtherSpelling{"acre-inch", "acre-in"},
    OtherSpelling{"acre-inches", "acre-in"},
    OtherSpelling{"gal/minute", "gal/min"},
    OtherSpelling{"gallons/min", "gal/min"},
    OtherSpelling{"gal per min", "gal/min"},
    OtherSpelling{"gal per minute", "gal/min"},
    OtherSpelling{"gallons per minute", "gal/min"},
    OtherSpelling{"us gal/min", "gal/min"},
    OtherSpelling{"gal/s", "gal/min", 60.0},
    OtherSpelling{"imp gpm", "imp gal/min"},
    OtherSpelling{"gph", "gal/h"},
    OtherSpelling{"gal/hr", "gal/h"},
    OtherSpelling{"gal/hour", "gal/h"},
    OtherSpelling{"gallons per hour", "gal/h"},
    OtherSpelling{"gpd", "gal/day"},
    OtherSpelling{"gal/d", "gal/day"},
    OtherSpelling{"gal per day", "gal/day"},
    OtherSpelling{"gallons/day", "gal/day"},
    OtherSpelling{"gallons per day", "gal/day"},
    OtherSpelling{"imp gal/d", "imp gal/day"},
    OtherSpelling{"lps", "L/s"},
    OtherSpelling{"lpm", "L/min"},
    OtherSpelling{"l/m", "L/min"},
    OtherSpelling{"litres per minute", "L/min"},
    OtherSpelling{"liters per minute", "L/min"},
    OtherSpelling{"L/hr", "L/h"},
    OtherSpelling{"L/d", "L/day"},
    OtherSpelling{"litres per day", "L/day"},
    OtherSpelling{"liters per day", "L/day"},
    OtherSpelling{"m\u00b3/s", "m3/s"},
    OtherSpelling{"m\u00b3/h", "m3/h"},
    OtherSpelling{"m3/hr", "m3/h"},
    OtherSpelling{"m3/d", "m3/day"},
    OtherSpelling{"m\u00b3/day", "m3/day"},
    OtherSpelling{"cfs", "ft3/s"},
    OtherSpelling{"cusec", "ft3/s"},
    OtherSpelling{"MPa", "kPa", 1000.0},
    OtherSpelling{"GPa", "kPa", 1e6},
    OtherSpelling{"hPa", "kPa", 0.1},
    OtherSpelling{"mbar", "kPa", 0.1},
    OtherSpelling{"bars", "bar"},
    OtherSpelling{"lb/in2", "psi"},
    OtherSpelling{"lbs", "psi"},
    OtherSpelling{"pounds", "psi"},
    OtherSpelling{"inHg", "in Hg"},
    OtherSpelling{"ft of water", "ft water"},
    OtherSpelling{"feet of water", "ft water"},
    OtherSpelling{"feet water", "ft water"},
    OtherSpelling{"ftH2O", "ft water"},
    OtherSpelling{"m of water", "m water"},
    OtherSpelling{"mH2O", "m water"},
    OtherSpelling{"\u00b0C", "C"},
    OtherSpelling{"deg C", "C"},
    OtherSpelling{"degC", "C"},
    OtherSpelling{"degrees C", "C"},
    OtherSpelling{"Celsius", "C"},
    OtherSpelling{"\u00b0F", "F"},
    OtherSpelling{"deg F", "F"},
    OtherSpelling{"degF", "F"},
    OtherSpelling{"degrees F", "F"},
    OtherSpelling{"Fahrenheit", "F"},
    OtherSpelling{"sec", "s"},
    OtherSpelling{"secs", "s"},
    OtherSpelling{"second", "s"},
    OtherSpelling{"seconds", "s"},
    OtherSpelling{"mins", "min"},
    OtherSpelling{"minute", "min"},
    OtherSpelling{"minutes", "min"},
    OtherSpelling{"hr", "h"},
    OtherSpelling{"hrs", "h"},
    OtherSpelling{"hour", "h"},
    OtherSpelling{"hours", "h"},
    OtherSpelling{"d", "day"},
    OtherSpelling{"days", "day"},
    OtherSpelling{"week", "day", 7.0},
    OtherSpelling{"weeks", "day", 7.0},
    OtherSpelling{"m\u00b2", "m2"},
    OtherSpelling{"m^2", "m2"},
    OtherSpelling{"sq m", "m2"},
    OtherSpelling{"hectare", "ha"},
    OtherSpelling{"hectares", "ha"},
    OtherSpelling{"acres", "acre"},
    OtherSpelling{"ac", "acre"},
    OtherSpelling{"ft\u00b2", "ft2"},
    OtherSpelling{"ft^2", "ft2"},
    OtherSpelling{"sq ft", "ft2"},
    OtherSpelling{"mm/d", "mm/day"},
    OtherSpelling{"mm per day", "mm/day"},
    OtherSpelling{"in/d", "in/day"},
    OtherSpelling{"inches/day", "in/day"},
    OtherSpelling{"percent", "%"},
    OtherSpelling{"per cent", "%"},
};

}  // namespace

const OtherSpelling* find_other_spelling(std::string_view spelling) {
  for (const OtherSpelling& other : other_spellings) {
    if (other.spelling == spelling) {
      return &other;
    }
  }
  const std::string wanted = in_lower_case(spelling);
  for (const OtherSpelling& other : other_spellings) {
    // "ml" is no megalitre and "mpa" is nobody's million: a prefix keeps its case.
    const bool case_matters = other.factor != 1.0;
    if (!case_matters && in_lower_case(other.spelling) == wanted) {
      return &other;
    }
  }
  return nullptr;
}

}  // namespace leat::model
