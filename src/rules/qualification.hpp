// Whether a person is qualified, topic by topic: instructed, practised, evaluated in the workplace,
// current. A quiz alone never opens anything (OSHA 1910.178(l)(1)-(2), read in a secondary copy;
// binding for lift trucks, adopted by the site elsewhere). Evaluations are renewed at least every
// three years ((l)(4)(iii)); a refresher stays open until its effect was evaluated ((l)(4)(i)).
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/local_time.hpp"
#include "content_types/content.hpp"

namespace holdpin {

// What is recorded of one person in one topic. Dates are local dates of the site.
struct TopicRecord {
    std::optional<Date> instructed;
    std::optional<Date> practised;
    std::optional<Date> evaluated;
    bool refresher_open = false;
};
using TopicRecords = std::map<std::string, TopicRecord>;  // by topic id

enum class TopicGap { none, not_instructed, not_practised, not_evaluated, lapsed, refresher_open };

// The last day on which an evaluation counts: the same day `valid_months` later, the last of the
// month where that month is shorter (29 February).
Date valid_until(const Topic& topic, Date evaluated);

TopicGap topic_gap(const Topic& topic, const TopicRecords& records, Date today);

// Every topic of the class without a gap.
bool is_current(const MachineClass& machine_class, const TopicRecords& records, Date today);

// Whether the training of a class keeps a person from a job. Whoever does it by a permit, such as a
// mechanic who was never trained to operate, is kept from it where training has run out or is to be
// refreshed; anybody else where anything of it is missing.
bool is_barred_from(const MachineClass& machine_class, std::string_view job,
                    const TopicRecords& records, Date today, bool by_permit);

// Topics in which a person must still be trained for a class: the difference only.
std::vector<std::string> topics_to_train(const MachineClass& machine_class,
                                         const TopicRecords& records, Date today);

// The earliest last day of an evaluation that still counts and ends within so many days.
std::optional<Date> evaluation_ends(const MachineClass& machine_class, const TopicRecords& records,
                                    Date today, int days);

// Whether a person may use a right on a machine of this class today. Rights that clear or open a
// machine need current topics too; trainers and evaluators must still be listed; work on LP parts
// needs the endorsement "lp-repair".
struct Claim {
    const Pack& pack;
    const Person& person;
    const MachineClass& machine_class;
    const TopicRecords& records;
    Date today;
    Hazard hazard = Hazard::none;
};
enum class Refusal { none, no_right, not_current, not_listed, no_endorsement };
Refusal refusal_of(const Claim& claim, Right right);

// The same for what concerns no single machine, such as a room: in one of these classes at least.
// Without any class, at a site without machines, the right alone counts: there is nothing to be
// current in.
struct OpenClaim {
    const Pack& pack;
    const Person& person;
    const std::vector<const MachineClass*>& classes;
    const TopicRecords& records;
    Date today;
};
Refusal refusal_of(const OpenClaim& claim, Right right);

}  // namespace holdpin
