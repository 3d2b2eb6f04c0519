// Every answer proves itself: what is printed for a random farm, checked from the farm alone.
#include <map>
#include <string>

#include <catch2/catch.hpp>

#include "render/words/audit.h"
#include "solver/audit/audit.h"
#include "solver/steady/steady.h"
#include "tests/support/farms_asked.h"
#include "tests/support/random_farm.h"

namespace leat::tests {

namespace {

// The whole study, with its rounds and its advice, costs fifteen times a network alone, so that a
// tenth of the farms is audited here. `million --printed` audits as many as one likes.

void audit_all(FarmKind kind, std::uint64_t count) {
  std::size_t balances = 0;
  std::size_t pipes = 0;
  std::size_t unsolved_count = 0;
  std::string unsolved;
  std::map<solver::AuditGap, std::size_t> not_checked;
  for (std::uint64_t seed = 1; seed <= count; ++seed) {
    const model::Farm farm = random_farm(seed, kind);
    solver::SteadyOptions options;
    options.load_case = seed % 5 == 0   ? solver::LoadCase::Wide
                        : seed % 7 == 0 ? solver::LoadCase::Static
                                        : solver::LoadCase::Needs;
    const solver::SteadyAnswer answer = solver::solve_steady(farm, options);
    if (!answer.converged) {
      unsolved += " " + std::to_string(seed);
      ++unsolved_count;
      continue;
    }
    const solver::AuditReport report = solver::audit_answer(farm, answer);
    balances += report.balances;
    pipes += report.pipes;
    for (const auto& [why, times] : report.not_checked) {
      not_checked[why] += times;
    }
    INFO("seed " << seed << " case " << solver::word_of(options.load_case) << ": "
                 << render::audit_sentence(report));
    CHECK(report.holds());
  }
  std::string open;
  std::size_t unproved_pipes = 0;
  for (const auto& [why, times] : not_checked) {
    open += "\nnot checked, gap " + std::to_string(static_cast<int>(why)) + ": " +
            std::to_string(times);
    using solver::AuditGap;
    const bool is_pipe = why != AuditGap::PressuresNotFull &&
                         why != AuditGap::PressuresUnderSuction &&
                         why != AuditGap::SummitsPartFull && why != AuditGap::BalanceBehindVent;
    unproved_pipes += is_pipe ? times : 0;
  }
  INFO(balances << " balances, " << pipes << " pipes, unsolved:" << unsolved << open);
  // Seed 6856 of the prototype's kind is solved once, but not again with its tees open to the air.
  CHECK(unsolved_count <= count / 5000);
  // An audit that looks away proves nothing.
  CHECK(unproved_pipes < pipes / 50);
  if (farms_asked_by_name()) {
    WARN(balances << " balances, " << pipes << " pipes" << open);
  }
}

}  // namespace

TEST_CASE("the printed answer of every random farm of the prototype's kind proves itself",
          "[law][slow]") {
  audit_all(FarmKind::Prototype, farms_asked() / 20);
}

TEST_CASE("the printed answer of every random farm with everything in it proves itself",
          "[law][slow]") {
  audit_all(FarmKind::Everything, farms_asked() / 20);
}

TEST_CASE("the printed answers of single lines and of farms without limits prove themselves",
          "[law]") {
  audit_all(FarmKind::SingleLine, 500);
  audit_all(FarmKind::LimitFree, 500);
}

}  // namespace leat::tests
