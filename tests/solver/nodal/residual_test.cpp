// One edge's equation: the sign rule, its derivatives, and that smoothing fades into the exact one.
#include "solver/nodal/residual.h"

#include <cmath>
#include <random>
#include <vector>

#include <catch2/catch.hpp>

namespace leat::tests {

using nodal::Edge;
using nodal::EdgeKind;
using nodal::EdgeResidual;
using nodal::Loss;
using nodal::Smoothing;

namespace {

constexpr double scale_s_m2 = 1e3;

const std::vector<EdgeKind> all_kinds = {EdgeKind::Link,
                                         EdgeKind::OneWay,
                                         EdgeKind::Discharge,
                                         EdgeKind::CappedDischarge,
                                         EdgeKind::LimitedSupply,
                                         EdgeKind::Crest,
                                         EdgeKind::HeldInlet,
                                         EdgeKind::HeadHold,
                                         EdgeKind::Pump};

/// A loss that rises at rest and turns with the flow.
Loss loss_at(double flow) {
  return {40.0 * flow + 3e4 * flow * std::abs(flow), 40.0 + 6e4 * std::abs(flow)};
}

Edge edge_of(EdgeKind kind) {
  Edge edge;
  edge.kind = kind;
  edge.up = 0;
  edge.down = 1;
  edge.has_loss = true;
  edge.linear_loss_s_m2 = 2.0;
  edge.opening_head_m = 0.3;
  edge.level_m = 10.0;
  edge.shut_level_m = 10.4;
  edge.limit_m3_s = 0.004;
  edge.velocity_head_s2_m5 = 2e4;
  return edge;
}

struct At {
  double flow = 0.0;
  double up = 0.0;
  double down = 0.0;
};

double value(const Edge& edge, const At& at, double smoothing_m) {
  return nodal::smoothed_residual(
             edge, at.flow, at.up, at.down, loss_at(at.flow), {scale_s_m2, smoothing_m})
      .residual_m;
}

double exact(const Edge& edge, const At& at) {
  return nodal::exact_residual_m(edge, at.flow, at.up, at.down, loss_at(at.flow), scale_s_m2);
}

/// Random states about the levels where limits bite.
class States {
 public:
  At next() { return {flow_(random_), head_(random_), head_(random_)}; }

 private:
  std::mt19937 random_{11};
  std::uniform_real_distribution<double> flow_{-0.008, 0.008};
  std::uniform_real_distribution<double> head_{8.0, 12.0};
};

}  // namespace

TEST_CASE("every kind of edge states the derivatives of its own residual") {
  for (const EdgeKind kind : all_kinds) {
    const Edge edge = edge_of(kind);
    States states;
    for (int i = 0; i < 1500; ++i) {
      const At at = states.next();
      if (std::abs(at.flow) < 1e-4) {
        continue;  // a velocity head of one side only has a corner in its slope at rest
      }
      const double mu = 0.2;
      const EdgeResidual stated = nodal::smoothed_residual(
          edge, at.flow, at.up, at.down, loss_at(at.flow), {scale_s_m2, mu});
      const double flow_step = 1e-8;
      const double head_step = 1e-6;
      const double by_flow = (value(edge, {at.flow + flow_step, at.up, at.down}, mu) -
                              value(edge, {at.flow - flow_step, at.up, at.down}, mu)) /
                             (2.0 * flow_step);
      const double by_up = (value(edge, {at.flow, at.up + head_step, at.down}, mu) -
                            value(edge, {at.flow, at.up - head_step, at.down}, mu)) /
                           (2.0 * head_step);
      const double by_down = (value(edge, {at.flow, at.up, at.down + head_step}, mu) -
                              value(edge, {at.flow, at.up, at.down - head_step}, mu)) /
                             (2.0 * head_step);
      CAPTURE(static_cast<int>(kind), at.flow, at.up, at.down);
      REQUIRE(stated.by_flow_s_m2 == Approx(by_flow).epsilon(1e-5).margin(1e-4));
      REQUIRE(stated.by_head_up == Approx(by_up).margin(1e-6));
      REQUIRE(stated.by_head_down == Approx(by_down).margin(1e-6));
    }
  }
}

TEST_CASE("every residual falls with the flow and never turns against its heads") {
  for (const EdgeKind kind : all_kinds) {
    const Edge edge = edge_of(kind);
    States states;
    for (int i = 0; i < 2000; ++i) {
      const At at = states.next();
      for (const double mu : {0.0, 1e-4, 1.0}) {
        const EdgeResidual stated = nodal::smoothed_residual(
            edge, at.flow, at.up, at.down, loss_at(at.flow), {scale_s_m2, mu});
        CAPTURE(static_cast<int>(kind), at.flow, at.up, at.down, mu);
        REQUIRE(stated.by_flow_s_m2 < 0.0);
        REQUIRE(stated.by_head_up >= 0.0);
        REQUIRE(stated.by_head_down <= 0.0);
      }
    }
  }
}

TEST_CASE("without smoothing the smoothed residual has the sign of the exact one") {
  for (const EdgeKind kind : all_kinds) {
    const Edge edge = edge_of(kind);
    States states;
    for (int i = 0; i < 2000; ++i) {
      const At at = states.next();
      CAPTURE(static_cast<int>(kind), at.flow, at.up, at.down);
      const double sharp = exact(edge, at);
      const double smooth = value(edge, at, 0.0);
      REQUIRE(sharp * smooth >= 0.0);
      REQUIRE((sharp == 0.0) == (smooth == 0.0));
    }
  }
}

TEST_CASE("what each edge calls an answer is one") {
  // Flows and heads put together by hand so that the edge's own condition holds.
  const double flow = 0.002;
  const double loss = loss_at(flow).loss_m;
  const double e = 2.0 * flow;
  const auto answers = [](EdgeKind kind, const At& at) {
    CAPTURE(static_cast<int>(kind), at.flow, at.up, at.down);
    CHECK(std::abs(exact(edge_of(kind), at)) < 1e-12);
  };
  answers(EdgeKind::Link, {flow, 11.0, 11.0 - loss});
  answers(EdgeKind::Link, {-flow, 11.0, 11.0 + loss});
  answers(EdgeKind::OneWay, {flow, 11.0, 11.0 - 0.3 - loss});
  answers(EdgeKind::OneWay, {0.0, 11.0, 10.8});  // not enough to open it
  answers(EdgeKind::OneWay, {0.0, 9.0, 11.0});
  answers(EdgeKind::Discharge, {flow, 10.0 + loss, 0.0});
  answers(EdgeKind::Discharge, {0.0, 9.5, 0.0});
  answers(EdgeKind::CappedDischarge, {flow, 10.0 + loss, 0.0});
  answers(EdgeKind::CappedDischarge, {0.004, 14.0, 0.0});  // more head than the need uses
  answers(EdgeKind::CappedDischarge, {0.0, 9.5, 0.0});
  answers(EdgeKind::LimitedSupply, {flow, 0.0, 10.0 - loss});
  answers(EdgeKind::LimitedSupply, {0.004, 0.0, 3.0});     // drawn down
  answers(EdgeKind::Crest, {flow, 11.0, 11.0 - e});        // a full siphon
  answers(EdgeKind::Crest, {-flow, 11.0 - e, 11.0});       // and back
  answers(EdgeKind::Crest, {0.0, 9.0, 9.0 - 3.0});         // neither side reaches the floor
  answers(EdgeKind::HeadHold, {flow, 15.0, 10.0 - e});     // holds 10 m
  answers(EdgeKind::HeadHold, {flow, 9.0, 9.0 - e});       // less comes than it would hold
  answers(EdgeKind::HeadHold, {0.0, 9.0, 12.0});           // no way back
  answers(EdgeKind::HeldInlet, {flow, 10.0 + loss, 9.0});  // falls in freely
  answers(EdgeKind::HeldInlet, {flow, 15.0, 10.4 - e});    // nearly shut
  answers(EdgeKind::HeldInlet, {0.0, 15.0, 10.5});         // shut
}

TEST_CASE("what is no answer of an edge leaves a residual") {
  const auto residual = [](EdgeKind kind, const At& at) { return exact(edge_of(kind), at); };
  CHECK(residual(EdgeKind::OneWay, {-0.001, 9.0, 11.0}) > 0.5);           // back through a one-way
  CHECK(residual(EdgeKind::Discharge, {-0.001, 9.0, 0.0}) > 0.5);         // in through an outlet
  CHECK(residual(EdgeKind::CappedDischarge, {0.005, 20.0, 0.0}) < -0.5);  // over its need
  CHECK(residual(EdgeKind::LimitedSupply, {0.005, 0.0, 3.0}) < -0.5);     // over its yield
  CHECK(residual(EdgeKind::HeadHold, {0.0, 15.0, 5.0}) > 0.5);            // holds back too much
}

TEST_CASE("a closed edge carries nothing whatever its heads") {
  Edge edge = edge_of(EdgeKind::Link);
  edge.closed = true;
  CHECK(exact(edge, {0.0, 20.0, 5.0}) == 0.0);
  CHECK(exact(edge, {1e-3, 5.0, 5.0}) == Approx(-1.0));
}

}  // namespace leat::tests
