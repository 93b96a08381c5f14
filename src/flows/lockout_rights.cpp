#include "flows/lockout_rights.hpp"

#include <algorithm>

#include "flows/lockout_visitor.hpp"
#include "flows/plates.hpp"
#include "records/lockout.hpp"
#include "rules/qualification.hpp"

namespace holdpin {
namespace {

constexpr int kAssessmentMonths = 12;  // site rule
constexpr const char* kEndorsement = "lockout";
constexpr std::string_view kTopicJob = "lockout";

Result<bool> is_current_in(const Session& session, const MachineClass& machine_class,
                           const Person& person) {
    const TopicRecords records = TRY(topics_of(session.db(), person.id));
    return is_current(machine_class, records, session.today());
}

// A permit that is still there says nothing of training that has run out.
Result<bool> has_lapsed(const Session& session, const Person& person,
                        const MachineClass& machine_class) {
    const TopicRecords records = TRY(topics_of(session.db(), person.id));
    return is_barred_from(machine_class, kTopicJob, records, session.today(), true);
}

}  // namespace

bool may_lock_out(const Session& session, const Person& person) {
    return session.pack().grants(person.duties, Right::place_lockout) ||
           std::find(person.endorsements.begin(), person.endorsements.end(), kEndorsement) !=
               person.endorsements.end();
}

Result<std::string> why_not_job(const Session& session, const MachineClass& machine_class,
                                LockoutJob job) {
    if (!session.person()) return session.say()("refused.sign-on");
    return why_not_job(session, *session.person(), machine_class, job);
}

Result<std::string> why_not_job(const Session& session, const Person& person,
                                const MachineClass& machine_class, LockoutJob job) {
    if (TRY(has_lapsed(session, person, machine_class))) return session.say()("lockout.lapsed");
    if (may_lock_out(session, person)) return std::string();
    if (job == LockoutJob::me) return session.say()("lockout.no-endorsement");
    if (!session.pack().grants(person.duties, Right::operate)) {
        return session.say()("refused.no-right");
    }
    if (TRY(is_current_in(session, machine_class, person))) return std::string();
    return session.say()("refused.not-current");
}

Result<bool> may_join(const Session& session, const std::string& plate) {
    if (!session.person() || !may_lock_out(session, *session.person())) return false;
    const MachineClass* machine_class = class_of(session, plate);
    if (machine_class == nullptr) return true;
    return !TRY(has_lapsed(session, *session.person(), *machine_class));
}

Result<std::string> why_not_second(const Session& session, const std::string& plate,
                                   const Person& person) {
    const std::string untold = TRY(why_not_told(session, plate, person));
    if (!untold.empty()) return untold;
    if (may_lock_out(session, person)) return std::string();
    const MachineClass* machine_class = class_of(session, plate);
    if (machine_class != nullptr && session.pack().grants(person.duties, Right::operate) &&
        TRY(is_current_in(session, *machine_class, person))) {
        return std::string();
    }
    return session.say()("lockout-out.second-current", {{"name", person.name}});
}

Result<bool> arm_alone_assessed(const Session& session, const std::string& machine_class) {
    const std::int64_t at_ms = TRY(arm_alone_assessed_ms(session.db(), machine_class));
    if (at_ms == 0) return false;
    const Date since = session.world().zone.local(at_ms).date;
    return session.today() <= add_months(since, kAssessmentMonths);
}

}  // namespace holdpin
