// The entries with which a site begins, as facts; and what of a site is new to the records.
// Names and other words about a person go into the private table, never into a fact.
#pragma once

#include <vector>

#include "content/content.hpp"
#include "ledger/ledger.hpp"
#include "store/database.hpp"

namespace holdpin {

// Why an id of `people` cannot be given to the person who stands there: whose it was is erased, or
// somebody else's by name; or the badge was lost. `renamed`: ids of the same people under a new
// name; one that is nobody's new name is a fault too. Empty: nothing stands against them.
Result<std::vector<Error>> taken_ids(Database& db, const std::vector<Person>& people,
                                     const std::vector<std::string>& renamed = {});
// The first of them as the error.
Result<void> refuse_taken_ids(Database& db, const std::vector<Person>& people,
                              const std::vector<std::string>& renamed);

// Facts about a person need the private table: run these inside the transaction that enters them.
Result<Fact> person_fact(Database& db, Random& random, const Person& person);
Fact machine_fact(const Machine& machine);
// Of a room that is closed to engines from the start.
Fact closed_room_fact(const Room& room);
// `items` by "kind/id" to digest: all of the content at first, what changed later.
// `unasked`: the files were found changed; nobody has asked for it.
Fact adopted_fact(const std::map<std::string, std::string>& items, const std::string& site,
                  bool unasked = false);
// Training that people of an example site bring along, counted back from `today`.
std::vector<Fact> brought_along(const Content& content, const ExampleRecord& record, Date today);
// A tailpipe test that a machine of an example site brings along, counted back from `today`.
Fact tailpipe_fact(const ExampleTailpipe& test, Date today);

// That a person of an example site accepted the signing statement of the content in a language.
Fact statement_fact(const Content& content, const std::string& person,
                    const std::string& language);

// Keeps the bytes of all items, so that what was once signed stays readable.
Result<void> keep_frozen(Database& db, const FrozenItems& frozen);

// What was last adopted, by "kind/id".
Result<std::map<std::string, std::string>> last_adopted(Database& db);
Result<void> set_last_adopted(Database& db, const std::map<std::string, std::string>& items);

}  // namespace holdpin
