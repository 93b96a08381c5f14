// Records about a person in plain words: what was done, on what, how long it is kept and why. Used
// by the page "What this kiosk stores about me" and by the command that writes the same.
#pragma once

#include <string>
#include <vector>

#include "flows/session.hpp"
#include "records/retention.hpp"

namespace holdpin {

// "Signed a round · SW-14".
std::string record_words(const Say& say, const Content& content, const Entry& entry);
// "Kept 3 years", "Kept to 25 Nov 2029", "Never purged", "Under a legal hold".
std::string kept_words(const Say& say, const RetentionClass& one);

// The records of one class, in the order of the classes.
struct RecordGroup {
    const RetentionClass* one = nullptr;
    std::vector<const RecordAbout*> records;
};
std::vector<RecordGroup> in_groups(const Pack& pack, const std::vector<RecordAbout>& records);

// All of it as a text of plain lines and as JSON, in the language of `say`.
struct AboutPerson {
    std::string text;
    std::string json;
};
Result<AboutPerson> about_person(Database& db, const Content& content, const Zone& zone,
                                 const Person& person, const Say& say);

}  // namespace holdpin
