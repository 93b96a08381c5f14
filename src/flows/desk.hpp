// The desk: findings, people, machines and rooms, for supervisors, trainers, mechanics, auditors.
// Opened with the PIN. What a person may not do is grey and says why.
#pragma once

#include "flows/session.hpp"

namespace holdpin {

class DeskFlow final : public Flow {
  public:
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
};

// Why the person signed on may not use a right on this machine's class; empty: they may.
Result<std::string> why_not(const Session& session, Right right, const MachineClass& machine_class,
                            Hazard hazard = Hazard::none);
// The same for any person.
Result<std::string> why_not(const Session& session, const Person& person, Right right,
                            const MachineClass& machine_class, Hazard hazard = Hazard::none);

// The same for a room: current in a class of a machine that has its place there; where none has, in
// any class of the site.
Result<Refusal> refusal_in_room(const Session& session, Right right, const std::string& room);
Result<std::string> why_not_in_room(const Session& session, Right right, const std::string& room);

// A row that starts a piece of work, grey with a reason where the person may not.
Row work_row(std::string id, std::string label, std::string second, std::string why_not);

// Asks the signature of the person signed on and then enters one signed fact; the fact is made
// only after the PIN was right.
struct SignedWork {
    std::string heading;
    std::string statement;
    std::string kind;
    std::string meaning;
    nlohmann::json data;
    std::int64_t about = 0;
    std::string private_text;   // kept privately, its hash stands in data; empty: none
    std::string about_person;   // whose private text it is
    std::string second = {};    // a second person who has signed too; empty: none
    std::string second_meaning = {};  // of what the second signed; empty: the same
    std::string text_key = "text";
};
std::unique_ptr<Flow> sign_work(const Session& session, SignedWork work);
// The same for a fact that has been made ready, by `person`, going on with `then`.
Result<Entry> enter_work(Session& session, const std::string& person, const SignedWork& work);

}  // namespace holdpin
