// Entries turned into rows of tables. One pass over the ledger, in order, fills them all.
// Names are looked up in the private table; one that was erased leaves its cell empty.
#pragma once

#include <map>
#include <string>

#include "binder/csv.hpp"
#include "ledger/ledger.hpp"
#include "store/database.hpp"

namespace holdpin {

class RecordTables {
  public:
    explicit RecordTables(Database& db);

    Result<void> add(const Entry& entry);
    // File names and their bytes.
    std::map<std::string, std::string> files() const;

  private:
    Result<void> add_entry(const Entry& entry);
    Result<void> add_round(const Entry& entry);
    Result<void> add_readings(const Entry& entry);
    Result<void> add_finding(const Entry& entry);
    Result<void> add_release(const Entry& entry);
    Result<void> add_training(const Entry& entry);
    Result<void> add_person(const Entry& entry);

    // The words behind a hash in the private table.
    Result<std::string> words(const std::string& hash);
    Result<std::string> name_of_person(const std::string& person);
    // The name as it was at the signing, else the name last enrolled.
    Result<std::string> signer(const Entry& entry);

    Database& db_;
    std::map<std::string, std::string> name_hashes_;  // of each person, as last enrolled
    CsvWriter entries_;
    CsvWriter rounds_;
    CsvWriter readings_;
    CsvWriter findings_;
    CsvWriter releases_;
    CsvWriter training_;
    CsvWriter people_;
};

}  // namespace holdpin
