// The page's server: on this machine alone, for who knows its address.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "render/commands/try/farm_on_trial.h"
#include "render/page/page_view.h"

namespace leat::render {

/// What `leat solve --json` prints of the text as it stands with its changes.
[[nodiscard]] std::string page_answer(const FarmMoment& moment, const PageView& view);

/// Serves one farm on the loopback address at a port of the system's choice. Every path begins with
/// a random word. Refused: another Host or Origin than its own (403), an unknown path or word
/// (404), a body over `largest_body` (413), a body that is no request of the page (400).
class PageServer {
 public:
  static constexpr std::size_t largest_body = std::size_t{64} * 1024;

  PageServer(FarmOnTrial& farm, std::optional<model::UnitSystem> units);
  ~PageServer();
  PageServer(const PageServer&) = delete;
  PageServer& operator=(const PageServer&) = delete;
  PageServer(PageServer&&) = delete;
  PageServer& operator=(PageServer&&) = delete;

  /// Takes a port; false where none can be had.
  [[nodiscard]] bool bind();
  /// "http://127.0.0.1:40001/5f0c.../"; after `bind`.
  [[nodiscard]] std::string address() const;
  [[nodiscard]] int port() const;
  /// Serves until `stop`, which another thread calls.
  void serve();
  void stop();

 private:
  class Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace leat::render
