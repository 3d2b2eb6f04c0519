// Of two findings of one code at one place the worse stays.
#include "solver/findings/finding_list.h"

#include <utility>
#include <vector>

#include <catch2/catch.hpp>

namespace leat::tests {

using solver::Finding;
using solver::FindingList;
using solver::LoadCase;
using solver::Severity;
using solver::Worse;

namespace {

Finding found(Severity severity, double value, LoadCase load_case, const char* where = "a") {
  Finding flag;
  flag.code = solver::Code::Collapse;
  flag.severity = severity;
  flag.where = where;
  flag.value = value;
  flag.load_case = load_case;
  return flag;
}

}  // namespace

TEST_CASE("a danger takes the place of a caution and never the other way round") {
  FindingList flags;
  flags.raise(found(Severity::Caution, 1.5, LoadCase::Needs), Worse::Lower);
  flags.raise(found(Severity::Danger, 0.9, LoadCase::Wide), Worse::Lower);
  flags.raise(found(Severity::Caution, 0.1, LoadCase::Static), Worse::Lower);
  const std::vector<Finding> kept = std::move(flags).sorted();
  REQUIRE(kept.size() == 1);
  CHECK(kept.front().load_case == LoadCase::Wide);
}

TEST_CASE("of two dangers the worse figure stays and of two alike the first") {
  FindingList lower;
  lower.raise(found(Severity::Danger, 0.5, LoadCase::Needs), Worse::Lower);
  lower.raise(found(Severity::Danger, 0.5, LoadCase::Static), Worse::Lower);
  lower.raise(found(Severity::Danger, 0.4, LoadCase::Wide), Worse::Lower);
  CHECK(std::move(lower).sorted().front().load_case == LoadCase::Wide);
  FindingList higher;
  higher.raise(found(Severity::Danger, 0.5, LoadCase::Needs));
  higher.raise(found(Severity::Danger, 0.5 + 1e-9, LoadCase::Static));
  higher.raise(found(Severity::Danger, 0.4, LoadCase::Wide));
  CHECK(std::move(higher).sorted().front().load_case == LoadCase::Needs);
}

TEST_CASE("dangers come before cautions and each place keeps its own") {
  FindingList flags;
  flags.raise(found(Severity::Caution, 1.5, LoadCase::Needs, "a"));
  flags.raise(found(Severity::Danger, 0.5, LoadCase::Needs, "b"));
  const std::vector<Finding> kept = std::move(flags).sorted();
  REQUIRE(kept.size() == 2);
  CHECK(kept.front().where == "b");
}

}  // namespace leat::tests
