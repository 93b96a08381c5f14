// People of another employer in a lockout: before they begin or join, they and somebody of the site
// who may lock out tell each other their procedures, and both sign that (29 CFR 1910.147(f)(2),
// from memory). Once in each lockout and for each visitor.
#pragma once

#include <string>

#include "flows/session.hpp"
#include "rules/lockout.hpp"

namespace holdpin {

// Whoever is signed on is a visitor, and has not been told in this lockout.
bool must_tell(const Session& session, const Lockout& state);
Page telling_page(const Session& session, const Lockout& state);
// Each statement ticked, the badge of the host, both PINs; then `procedures-told`.
Result<Next> tell_each_other(Session& session, const std::string& plate);
// Why a person cannot take part yet in the lockout that runs; empty: they can.
Result<std::string> why_not_told(const Session& session, const std::string& plate,
                                 const Person& person);
// Error: refused, where this person is not of the site or may not lock out.
Result<void> check_host(const Session& session, const std::string& plate, const std::string& id);

}  // namespace holdpin
