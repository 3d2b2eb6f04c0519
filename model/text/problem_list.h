// Collects what is wrong with a file while it is read, so that all of it is told at once.
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "model/text/diagnostic.h"

namespace leat::model {

/// The problems of one farm file, of those it is based on and of the files beside them, in the
/// order they were met.
class ProblemList {
 public:
  explicit ProblemList(std::string file) : files_{std::move(file)} {}

  /// Numbers a file the farm file is based on; returns its index (source_files.h).
  [[nodiscard]] std::size_t add_file(std::string file);

  /// Notes that a CSV file was read beside them, by its name from where the program runs.
  void add_csv_file(std::string file) { csv_files_.push_back(std::move(file)); }

  /// Notes an error in the farm file, or in the one its position is in. `text` is one sentence
  /// without a full stop.
  void add(std::string code, SourcePosition position, std::string text, std::string hint = {});

  /// Notes an error in another file, such as the CSV file of a path.
  void add_in(std::string file,
              std::string code,
              SourcePosition position,
              std::string text,
              std::string hint = {});

  /// How many problems there are so far: a reader compares before and after to know whether what it
  /// read is sound.
  [[nodiscard]] std::size_t count() const { return problems_.size(); }

  /// Every problem once, those of the farm file first, each file's by position.
  [[nodiscard]] std::vector<Diagnostic> sorted() const;

  [[nodiscard]] const std::string& file() const { return files_.front(); }
  /// The name of the file a position is in.
  [[nodiscard]] const std::string& file_of(SourcePosition position) const;
  /// The farm file, then those it is based on.
  [[nodiscard]] const std::vector<std::string>& files() const { return files_; }
  /// The CSV files that were read beside them.
  [[nodiscard]] const std::vector<std::string>& csv_files() const { return csv_files_; }

 private:
  std::vector<std::string> files_;
  std::vector<std::string> csv_files_;
  std::vector<Diagnostic> problems_;
};

}  // namespace leat::model
