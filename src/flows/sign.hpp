// The words that a person signs before anything else (what a signature here means), by language,
// and their digest, with which an acceptance names them.
#pragma once

#include <string>
#include <string_view>

#include "flows/session.hpp"

namespace holdpin {

inline constexpr std::string_view kSigningStatement = "signing.statement";

// SHA-256 of the text in this language, hexadecimal.
std::string signing_statement_digest(const Pack& pack, const std::string& language);

// Whether this person has yet to accept the statement in the language that is shown.
Result<bool> needs_statement(const Session& session, const std::string& person);

// Draws a PIN at random, sets it and enters who issued it. Issued by others it must be replaced by
// the person at the first signature; issued by the person alone it stays.
Result<std::string> draw_pin(Session& session, const Person& person, std::vector<std::string> by);

}  // namespace holdpin
