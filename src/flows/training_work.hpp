// The signed steps of training, each by somebody entitled: instructed in person, practised under
// supervision (trainee and trainer both sign), evaluated in the workplace, authorised in writing
// with conditions, refresher opened. A passed quiz opens none of them.
#pragma once

#include <vector>

#include "flows/session.hpp"

namespace holdpin {

enum class TrainingKind { instruct, practise, evaluate, authorise, withdraw, refresh };

struct TrainingOffer {
    TrainingKind kind = TrainingKind::instruct;
    Row row;  // grey with a reason where it cannot be done now
};

Result<std::vector<TrainingOffer>> training_offers(const Session& session,
                                                   const std::string& person,
                                                   const MachineClass& machine_class);
Result<Next> begin_training_work(Session& session, TrainingKind kind, const Person& person,
                                 const MachineClass& machine_class);

}  // namespace holdpin
