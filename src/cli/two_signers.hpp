// Two people who answer for what is done at the kiosk's files: each with badge and PIN, one of them
// a supervisor. What they sign names both.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "ledger/ledger.hpp"
#include "store/tables.hpp"

namespace holdpin {

using AskPin = std::function<Result<std::string>(const std::string& badge)>;

using CheckPin = std::function<Result<PinCheck>(const std::string& person, const std::string& pin)>;

// As at the kiosk: that somebody's PIN was refused, to be entered by whoever checks it.
Fact refused_fact(const std::string& person, const PinCheck& check);

struct SigningPlace {
    Database& db;
    const CheckPin& check_pin;
    const AskPin& ask_pin;
};
// Puts both into `fact`: the first in `by` with the signature, the second beside it. Outside a
// transaction: each PIN is counted before it is judged. Errors: refused, also for whoever has not
// yet accepted at the kiosk what a signature means.
Result<void> sign_by_two(const SigningPlace& place, const std::vector<std::string>& badges,
                         const char* meaning, Fact& fact);

// Asks at the terminal; what is typed is not shown.
Result<std::string> ask_pin(const std::string& badge);

}  // namespace holdpin
