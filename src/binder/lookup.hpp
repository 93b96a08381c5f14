// What rows of tables look up beside their entry: words behind hashes, names of people, classes of
// machines, and on what footing a rule stands. Learns from the entries as they pass, in order.
// A failure of the database is kept and asked for once, after the rows of an entry.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "binder/binder.hpp"
#include "content_types/content.hpp"
#include "ledger/ledger.hpp"

namespace holdpin {

// Why a row's rule applies, for these classes of machines.
struct RowFooting {
    std::string id;
    std::vector<std::string> classes;  // none: no machine is concerned
};

class Lookup {
  public:
    Lookup(Database& db, const Content& content) : db_(db), content_(content) {}

    void learn(const Entry& entry);

    // Empty where they were erased.
    std::string words(const std::string& hash);
    std::string name_of(const std::string& person);
    // As it was at the signing; else the name that was last enrolled.
    std::string signer(const Entry& entry);

    // What a note of disagreement is about; empty where it was purged.
    std::optional<Entry> disputed(std::int64_t about);

    bool knows_person(const std::string& id) const { return name_hashes_.contains(id); }
    bool knows_machine(const std::string& plate) const { return machine_class_.contains(plate); }
    const MachineClass* class_of(const std::string& plate) const;
    const Content& content() const { return content_; }

    // "law", "guidance", "standard", "maker" or "site policy"; where it differs between classes,
    // each with its class.
    std::string footing_kind(const RowFooting& footing) const;
    std::string footing_source(const RowFooting& footing) const;
    // The classes at this site that have the topic.
    std::vector<std::string> classes_with(const std::string& topic) const;

    std::optional<Error> failure() const { return failure_; }

  private:
    std::string kind_for(const Footing& footing, const std::string& class_id) const;

    Database& db_;
    const Content& content_;
    std::map<std::string, std::string> words_;         // by hash; empty: erased
    std::map<std::string, std::string> name_hashes_;   // of each person, as last enrolled
    std::map<std::string, std::string> machine_class_; // of each plate, as last enrolled
    std::optional<Error> failure_;
};

}  // namespace holdpin
