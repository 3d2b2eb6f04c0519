// What sits where on the pipes of a profile.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "solver/flow/flow_state.h"
#include "solver/profile/profile.h"

namespace leat::solver {

/// Gives the point of one pipe at a length of pipe from its start a mark, one where the pipe is
/// full rather than one where it is not; adds a point where there is none or all are marked.
/// `points` are one pipe's, in the order the file writes it.
void put_mark(std::vector<ProfilePoint>& points,
              double along_m,
              ProfileMark mark,
              const std::string& name);

/// Whether the pipe comes up to the turn downward at a distance and level and falls from it;
/// elsewhere it only falls faster, or rises less, from there: a knee.
[[nodiscard]] bool is_high_point(const PipeCourse& course, double at_m, double elevation_m);

/// Marks summits, vents, regulators, valves and placed fittings of one pipe.
void mark_fittings(const FlowState& state, std::size_t pipe, std::vector<ProfilePoint>& points);

/// Marks the first, the last and the joining points of a run with the names of their places.
void mark_places(const model::Farm& farm,
                 const std::vector<ProfileLeg>& legs,
                 std::vector<ProfilePoint>& points);

/// Marks the high points of a run that carry no vent: the pipe comes up to them and falls on. At a
/// joint in open water one course ends and another begins.
void mark_bleeds(const model::Farm& farm,
                 const std::vector<ProfileLeg>& legs,
                 std::vector<ProfilePoint>& points);

/// Finds the reaches of a run that are not full, and marks where they begin and end in the
/// direction of flow.
[[nodiscard]] std::vector<PartFullReach> mark_part_full(const FlowState& state,
                                                        const std::vector<ProfileLeg>& legs,
                                                        std::vector<ProfilePoint>& points);

}  // namespace leat::solver
