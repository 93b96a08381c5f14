#include "flows/leak_found.hpp"

namespace holdpin {

Result<void> add_void_for_leak(const Session& session, const std::string& plate,
                               std::vector<Fact>& facts) {
    const MachineState machine = TRY(machine_state(session.db(), plate));
    if (!machine.out) return {};
    Fact fact;
    fact.kind = "release-voided";
    if (session.person()) fact.by = {session.person_id()};
    fact.about = machine.out->entry;
    fact.data = {{"machine", plate},
                 {"person", machine.out->person},
                 {"release", machine.out->entry},
                 {"cause", "leak"}};
    facts.push_back(std::move(fact));
    return {};
}

}  // namespace holdpin
