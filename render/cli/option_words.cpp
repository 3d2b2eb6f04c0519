#include "render/cli/option_words.h"

namespace leat::render {

namespace {

using Form = Choice<OutputForm>;

constexpr std::array<Form, 3> solve_forms = {{{"places", OutputForm::CsvPlaces},
                                              {"pipes", OutputForm::CsvPipes},
                                              {"flags", OutputForm::CsvFlags}}};
constexpr std::array<Form, 1> read_forms = {{{"pipes", OutputForm::CsvPipes}}};
constexpr std::array<Form, 1> profile_forms = {{{"points", OutputForm::CsvPoints}}};
constexpr std::array<Form, 5> season_forms = {{{"troughs", OutputForm::CsvTroughs},
                                               {"tanks", OutputForm::CsvTanks},
                                               {"ponds", OutputForm::CsvPonds},
                                               {"levels", OutputForm::CsvLevels},
                                               {"balance", OutputForm::CsvBalance}}};
constexpr std::array<Form, 1> compare_forms = {{{"farms", OutputForm::CsvFarms}}};
constexpr std::array<Form, 1> improve_forms = {{{"changes", OutputForm::CsvChanges}}};
constexpr std::array<Form, 1> all_forms = {{{"all", OutputForm::CsvCatalogue}}};

}  // namespace

std::span<const Choice<OutputForm>> csv_forms(Command command) {
  switch (command) {
    case Command::Solve:
      return solve_forms;
    case Command::Read:
      return read_forms;
    case Command::Profile:
      return profile_forms;
    case Command::Season:
      return season_forms;
    case Command::Compare:
      return compare_forms;
    case Command::Improve:
      return improve_forms;
    case Command::Size:
    case Command::Fit:
    case Command::Pipes:
    case Command::Fittings:
    case Command::Herd:
      return all_forms;
    case Command::New:
    case Command::Draw:
    case Command::Prime:
    case Command::Try:
    case Command::Map:
    case Command::Report:
      break;
  }
  return {};
}

}  // namespace leat::render
