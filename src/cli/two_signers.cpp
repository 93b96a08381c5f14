#include "cli/two_signers.hpp"

#include <termios.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>

#include "base/text.hpp"
#include "cli/output.hpp"
#include "records/privacy.hpp"
#include "records/records.hpp"

namespace holdpin {
namespace {

// What is typed at a terminal while this lives is not shown.
class Unseen {
  public:
    Unseen() : on_(::isatty(STDIN_FILENO) != 0 && ::tcgetattr(STDIN_FILENO, &before_) == 0) {
        termios unseen = before_;
        unseen.c_lflag &= ~static_cast<tcflag_t>(ECHO);
        if (on_) ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &unseen);
    }
    ~Unseen() {
        if (on_) ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &before_);
    }
    Unseen(const Unseen&) = delete;
    Unseen& operator=(const Unseen&) = delete;

  private:
    termios before_{};
    bool on_;
};

Result<void> refuse_unless_right(const PinCheck& check, const std::string& badge) {
    switch (check.answer) {
        case PinAnswer::right: return {};
        case PinAnswer::locked:
            return Error{ErrorKind::refused, "this badge is locked after wrong PINs", badge,
                         "let a supervisor and a second person give a new PIN"};
        case PinAnswer::wait:
            return Error{ErrorKind::refused, "a wrong PIN was typed before", badge,
                         "wait " + std::to_string(check.wait_ms / 1000 + 1) + " seconds"};
        default: return Error{ErrorKind::refused, "this is not the PIN of the badge", badge, ""};
    }
}

// In the language in which the person works at the kiosk, which is where it is read and signed.
Result<void> refuse_without_statement(Database& db, const Person& person) {
    if (!TRY(accepted_statement(db, person.id, person.language)).empty()) return {};
    return Error{ErrorKind::refused,
                 person.id + " has not accepted what a signature means", person.badge,
                 "let them sign something at the kiosk first: it asks for that"};
}

}  // namespace

Fact refused_fact(const std::string& person, const PinCheck& check) {
    Fact fact;
    fact.kind = "sign-refused";
    fact.data = {{"person", person}, {"failures", check.failures}};
    return fact;
}

Result<std::string> ask_pin(const std::string& badge) {
    say("PIN of " + badge + ":");
    const Unseen unseen;
    std::string line;
    for (int c = std::getchar(); c != EOF && c != '\n'; c = std::getchar()) {
        line += static_cast<char>(c);
    }
    if (line.empty()) return Error{ErrorKind::refused, "no PIN was typed", badge, ""};
    return std::string(trimmed(line));
}

Result<void> sign_by_two(const SigningPlace& place, const std::vector<std::string>& badges,
                         const char* meaning, Fact& fact) {
    std::vector<std::string> ids;
    bool supervised = false;
    for (const std::string& badge : badges) {
        const auto person = TRY(person_with_badge(place.db, badge));
        if (!person) return Error{ErrorKind::refused, "nobody has this badge", badge, ""};
        TRY(refuse_without_statement(place.db, *person));
        const std::string pin = TRY(place.ask_pin(badge));
        TRY(refuse_unless_right(TRY(place.check_pin(person->id, pin)), badge));
        ids.push_back(person->id);
        const auto& duties = person->duties;
        supervised = supervised ||
                     std::find(duties.begin(), duties.end(), Duty::supervising) != duties.end();
    }
    if (ids.size() != 2 || ids[0] == ids[1] || !supervised) {
        return Error{ErrorKind::refused, "it takes two people, one of them a supervisor", "", ""};
    }
    fact.by = {ids[0]};
    fact.data["signature"] = {{"name", TRY(name_hash_of(place.db, ids[0]))},
                              {"meaning", meaning},
                              {"language", "en"}};
    fact.data["second"] = ids[1];
    fact.data["second_name"] = TRY(name_hash_of(place.db, ids[1]));
    return {};
}

}  // namespace holdpin
