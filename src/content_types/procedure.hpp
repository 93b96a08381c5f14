// How the energy of a class of machines is controlled while somebody works on it: the sources, the
// supports of what is raised, and the written procedure around them.
#pragma once

#include <string>
#include <string_view>

#include "content_types/words.hpp"

namespace holdpin {

// One line of the energy inventory: a source that a lockout has to reach.
struct Energy {
    std::string id;
    Text name;
    Text isolate;  // how it is isolated or restrained
    Text verify;   // how one sees that it is gone
    bool stored = false;
    bool before_an_arm = false;  // also off before an arm alone reaches in
    int reverify_minutes = 0;    // can creep or come back: look again so often; 0: cannot
    bool tag_only = false;       // its isolator takes no lock
    Text extra_measure;          // with `tag_only`: what makes the tag as good as a lock
};

// A mechanical support of the raised part; each is set, seen and stowed on its own.
struct Prop {
    std::string id;
    Text name;
    std::string part;  // in the illustration
};

// What the written energy control procedure of a class says besides its sources and supports.
struct Procedure {
    Text scope;
    Text purpose;
    Text authorisation;
    Text rules;
    Text techniques;
    Text enforcement;  // how it is seen to that people keep to it
    Text shutdown;
    Text block;  // and secure
    Text place;  // a lock or tag; so `remove` and `transfer`
    Text remove;
    Text transfer;
    Text responsible;  // for the locks and tags
    Text verify;       // that all of it worked
};

// The texts of a procedure in the order in which they are read, each with the clause of
// 29 CFR 1910.147(c)(4)(ii) that asks for it (wording from memory). Key: in its file, on screens.
struct ProcedureText {
    std::string_view key;
    Text Procedure::*text;
    std::string_view clause;
    std::string_view asks;
    bool after_sources;  // read after the supports and the sources
};
inline constexpr ProcedureText kProcedureTexts[] = {
    {"purpose", &Procedure::purpose, "1910.147(c)(4)(ii)(A)", "what it is to be used for", false},
    {"scope", &Procedure::scope, "1910.147(c)(4)(ii)", "its scope", false},
    {"authorisation", &Procedure::authorisation, "1910.147(c)(4)(ii)", "who may use it", false},
    {"rules", &Procedure::rules, "1910.147(c)(4)(ii)", "its rules", false},
    {"techniques", &Procedure::techniques, "1910.147(c)(4)(ii)", "its techniques", false},
    {"enforcement", &Procedure::enforcement, "1910.147(c)(4)(ii)",
     "how compliance is enforced", false},
    {"shutdown", &Procedure::shutdown, "1910.147(c)(4)(ii)(B)", "how it is shut down", false},
    {"block", &Procedure::block, "1910.147(c)(4)(ii)(B)", "how it is blocked and secured", false},
    {"place", &Procedure::place, "1910.147(c)(4)(ii)(C)", "how locks and tags are placed", true},
    {"remove", &Procedure::remove, "1910.147(c)(4)(ii)(C)", "how locks and tags are removed", true},
    {"transfer", &Procedure::transfer, "1910.147(c)(4)(ii)(C)",
     "how locks and tags are transferred", true},
    {"responsible", &Procedure::responsible, "1910.147(c)(4)(ii)(C)",
     "who is responsible for locks and tags", true},
    {"verify", &Procedure::verify, "1910.147(c)(4)(ii)(D)", "how it is tested that all of it worked",
     true},
};

}  // namespace holdpin
