// Inside of work.cpp: what a step of a job asks, put on a page, and what an answer to it writes.
#pragma once

#include <string>
#include <vector>

#include "flows/session.hpp"
#include "records/works.hpp"
#include "rules/guided_work.hpp"

namespace holdpin {

// One step of a running job with what the rule needs to know.
struct WorkSpot {
    const Work* work = nullptr;
    const WorkStep* step = nullptr;
    WorkRow row;
    WorkFacts facts;
    std::vector<Cylinder> cylinders;  // the register, where one is to be chosen
};
// `step` is null where the steps have changed since the job was begun.
Result<WorkSpot> spot_of(const Session& session, const WorkRow& row);

// The page of the step; actions are "reply:<step>:<answer>" and "reply:<step>:chosen:<thing>".
Page step_page(const Session& session, const WorkSpot& spot);

// Everything that an answer writes, in order: the step, what it changes, a finding and its tag.
Result<std::vector<Fact>> facts_of_move(Session& session, const WorkSpot& spot,
                                        const WorkReply& reply, const WorkMove& move);

}  // namespace holdpin
