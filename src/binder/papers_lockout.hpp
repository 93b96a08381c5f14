// The certificate of a lockout procedure's inspection: machine, date, employees included and
// inspector, as 29 CFR 1910.147(c)(6)(ii) asks for (from memory), with the proof of its entry.
#pragma once

#include "binder/papers_voice.hpp"

namespace holdpin {

// `inspected`: an entry `lockout-procedure-inspected`.
Result<Paper> lockout_paper(const BinderMaterial& material, const NameHashes& names,
                            const Entry& inspected, const std::string& proof);

}  // namespace holdpin
