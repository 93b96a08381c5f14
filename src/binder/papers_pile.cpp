#include "binder/papers_pile.hpp"

#include <algorithm>
#include <array>
#include <set>

#include "binder/table.hpp"

namespace holdpin {
namespace {

constexpr std::array<std::string_view, 7> kAnswers{
    "finding-described", "finding-secured", "finding-withdrawn",  "limit-decided",
    "repair-stated",     "recheck-done",    "returned-to-service"};

bool is_answer(const std::string& kind) {
    return std::find(kAnswers.begin(), kAnswers.end(), kind) != kAnswers.end();
}

}  // namespace

void PapersPile::add(const Entry& entry) {
    if (entry.kind == "person-enrolled") {
        names[text_of(entry.data, "person")] = text_of(entry.data, "name");
    }
    add_training(entry);
    add_round(entry);
    add_finding(entry);
    counts.add(entry, is_in_period(entry, material_.scope));
    if (entry.kind == "lockout-procedure-inspected" && is_in_scope(entry, material_.scope)) {
        inspections.push_back(entry);
    }
}

void PapersPile::add_training(const Entry& entry) {
    const bool is_instruction =
        entry.kind == "instructed" ||
        (entry.kind == "quiz-finished" && entry.data.value("passed", false));
    const std::string person = text_of(entry.data, "person");
    const std::string on = text_of(entry.data, "on");
    const std::string day = on.empty() ? iso_date(local_date(entry)) : on;
    const std::string by = entry.by.empty() || entry.by.front() == person ? "" : entry.by.front();
    const auto topics = list_of(entry.data, "topics");
    for (const std::string& topic : topics) {
        TopicTraining& training = training_[{person, topic}];
        if (is_instruction) training.instructed_on = day, training.instructed_by = by;
        if (entry.kind == "practised") training.practised_on = day, training.practised_by = by;
    }
    const BinderScope& scope = material_.scope;
    const bool is_wanted = scope.machine.empty() &&
                           (scope.person.empty() || scope.person == person);
    const bool is_passed = entry.kind == "evaluated" && entry.data.value("passed", false);
    if (!is_passed || !is_wanted || !is_in_period(entry, material_.scope)) return;
    CertificateFacts facts{entry, {}};
    for (const std::string& topic : topics) facts.topics[topic] = training_[{person, topic}];
    certificates.push_back(std::move(facts));
}

void PapersPile::add_round(const Entry& entry) {
    if (entry.kind != "round-signed" || !is_in_scope(entry, material_.scope)) return;
    const std::string machine = text_of(entry.data, "machine");
    const std::string month = iso_date(local_date(entry)).substr(0, 7);
    RoundMonth& of_month = rounds[machine + "-" + month];
    of_month.machine = machine;
    if (of_month.entries.empty()) of_month.first = local_date(entry);
    of_month.last_ms = entry.at_ms;
    of_month.entries.push_back(entry.n);
    const std::string language = language_of(entry);
    auto& languages = of_month.languages;
    if (language.empty() || language == "en") return;
    if (std::find(languages.begin(), languages.end(), language) == languages.end()) {
        languages.push_back(language);
    }
}

void PapersPile::add_finding(const Entry& entry) {
    const BinderScope& scope = material_.scope;
    if (!scope.person.empty()) return;
    const std::string machine = text_of(entry.data, "machine");
    if (!scope.machine.empty() && scope.machine != machine) return;
    if (entry.kind == "finding-entered" && is_in_period(entry, material_.scope)) {
        const std::string year = iso_date(local_date(entry)).substr(0, 4);
        FindingYear& of_year = findings[machine + "-" + year];
        of_year.machine = machine;
        of_year.year = year;
        of_year.chains[entry.n] = {entry.n};
        chains_[entry.n] = &of_year.chains[entry.n];
    }
    if (!is_answer(entry.kind)) return;
    std::set<std::int64_t> answered{entry.about};
    const auto list = entry.data.find("findings");
    if (list != entry.data.end() && list->is_array()) {
        for (const auto& n : *list) {
            if (n.is_number_integer()) answered.insert(n.get<std::int64_t>());
        }
    }
    for (const std::int64_t finding : answered) {
        const auto chain = chains_.find(finding);
        if (chain != chains_.end()) chain->second->push_back(entry.n);
    }
}

}  // namespace holdpin
