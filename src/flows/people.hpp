// People at the desk: what each is current in, class by class and topic by topic, and the signed
// steps that change it: instruction in person, practice, evaluation, authorisation, refresher, PIN.
// A certificate from elsewhere is a claim; only an evaluation here counts.
#pragma once

#include "flows/session.hpp"

namespace holdpin {

class PeopleFlow final : public Flow {
  public:
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
};

// Badges and PINs that were refused lately, for whoever looks after the badges.
class RefusalsFlow final : public Flow {
  public:
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
};

// One person: the classes of machines of the site, and the PIN.
class PersonFlow final : public Flow {
  public:
    explicit PersonFlow(std::string person) : person_(std::move(person)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    std::string person_;
};

// One person and one class of machine.
class TrainingFlow final : public Flow {
  public:
    TrainingFlow(std::string person, std::string machine_class)
        : person_(std::move(person)), class_(std::move(machine_class)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    std::string person_;
    std::string class_;
};

// Draws a PIN at random for a person, enters who issued it, and shows it once. It is good for
// nothing but the person's own new one.
Result<Next> show_new_pin(Session& session, const Person& person, std::vector<std::string> by);

}  // namespace holdpin
