// What this kiosk stores about one person, as a document for that person: the line in the list of
// people, every record by class with how long, why and who sees it, notes of disagreement, and what
// stands outside the entries. In the person's language and in English. Reads only; `now_ms` of the
// material is the date on it.
#pragma once

#include "binder/papers_voice.hpp"

namespace holdpin {

// Errors: those of reading.
Result<Paper> about_paper(const BinderMaterial& material, const Person& person);

}  // namespace holdpin
