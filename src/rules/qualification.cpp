#include "rules/qualification.hpp"

#include <algorithm>

namespace holdpin {

Date valid_until(const Topic& topic, Date evaluated) {
    return add_months(evaluated, topic.valid_months);
}

TopicGap topic_gap(const Topic& topic, const TopicRecords& records, Date today) {
    const auto at = records.find(topic.id);
    const TopicRecord record = at == records.end() ? TopicRecord{} : at->second;
    if (!record.instructed) return TopicGap::not_instructed;
    if (!record.practised) return TopicGap::not_practised;
    if (!record.evaluated) return TopicGap::not_evaluated;
    if (today > valid_until(topic, *record.evaluated)) return TopicGap::lapsed;
    return record.refresher_open ? TopicGap::refresher_open : TopicGap::none;
}

bool is_current(const MachineClass& machine_class, const TopicRecords& records, Date today) {
    return topics_to_train(machine_class, records, today).empty();
}

bool is_barred_from(const MachineClass& machine_class, std::string_view job,
                    const TopicRecords& records, Date today, bool by_permit) {
    const auto bars = [&](const Topic& topic) {
        if (std::find(topic.jobs.begin(), topic.jobs.end(), job) == topic.jobs.end()) return false;
        const TopicGap gap = topic_gap(topic, records, today);
        const bool lapsed = gap == TopicGap::lapsed || gap == TopicGap::refresher_open;
        return lapsed || (!by_permit && gap != TopicGap::none);
    };
    return std::any_of(machine_class.topics.begin(), machine_class.topics.end(), bars);
}

std::vector<std::string> topics_to_train(const MachineClass& machine_class,
                                         const TopicRecords& records, Date today) {
    std::vector<std::string> ids;
    for (const Topic& topic : machine_class.topics) {
        if (topic_gap(topic, records, today) != TopicGap::none) ids.push_back(topic.id);
    }
    return ids;
}

std::optional<Date> evaluation_ends(const MachineClass& machine_class, const TopicRecords& records,
                                    Date today, int days) {
    std::optional<Date> ends;
    for (const Topic& topic : machine_class.topics) {
        if (topic_gap(topic, records, today) != TopicGap::none) continue;
        const Date until = valid_until(topic, *records.at(topic.id).evaluated);
        if (until <= add_days(today, days) && (!ends || until < *ends)) ends = until;
    }
    return ends;
}

Refusal refusal_of(const Claim& claim, Right right) {
    const Person& person = claim.person;
    if (!claim.pack.grants(person.duties, right)) return Refusal::no_right;
    const bool listing_counts = right == Right::instruct || right == Right::evaluate;
    if (listing_counts && (!person.listed_until || *person.listed_until < claim.today)) {
        return Refusal::not_listed;
    }
    const bool clears = right == Right::return_to_service || right == Right::decide_limit ||
                        right == Right::override_hold || right == Right::authorise;
    if (clears && !is_current(claim.machine_class, claim.records, claim.today)) {
        return Refusal::not_current;
    }
    const bool lp = claim.hazard == Hazard::lp_leak || claim.hazard == Hazard::lp_fuel;
    if (right == Right::repair && lp &&
        std::find(person.endorsements.begin(), person.endorsements.end(), "lp-repair") ==
            person.endorsements.end()) {
        return Refusal::no_endorsement;
    }
    return Refusal::none;
}

Refusal refusal_of(const OpenClaim& claim, Right right) {
    Refusal refusal =
        claim.pack.grants(claim.person.duties, right) ? Refusal::none : Refusal::no_right;
    for (const MachineClass* one : claim.classes) {
        refusal =
            refusal_of({claim.pack, claim.person, *one, claim.records, claim.today}, right);
        if (refusal == Refusal::none) break;
    }
    return refusal;
}

}  // namespace holdpin
