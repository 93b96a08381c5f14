#include "records/lockout.hpp"

#include <array>

#include "records/records.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;
using Names = std::vector<std::string>;
using NameSet = std::set<std::string>;
using ByPerson = std::map<std::string, std::string>;

// In the order of the enumeration.
constexpr std::array<std::string_view, kLockoutDeedCount> kKinds{
    "lockout-shut-down",  "prop-set",           "prop-seen",
    "energy-isolated",    "lock-placed",        "energy-relieved",
    "lockout-tried",      "lockout-reverified", "reverify-missed",
    "zone-left",          "lockout-test-run",   "lockout-test-ended",
    "lockout-cleared",    "lock-removed",       "lock-removed-for-absent",
    "lock-handed-over",   "lift-off",           "engine-stopped",
    "prop-stowed",        "lockout-closed",     "lockout-procedure-reviewed",
    "energy-measure-taken", "procedures-told",  "prop-damaged"};

// Under which key an entry of this deed keeps its item; null: it has none.
const char* item_key(LockoutDeed deed) {
    switch (deed) {
        case LockoutDeed::set_prop:
        case LockoutDeed::see_prop:
        case LockoutDeed::report_prop:
        case LockoutDeed::stow_prop: return "prop";
        case LockoutDeed::isolate:
        case LockoutDeed::take_measure:
        case LockoutDeed::relieve: return "source";
        case LockoutDeed::place_lock:
        case LockoutDeed::remove_lock:
        case LockoutDeed::remove_for_absent: return "device";
        default: return nullptr;
    }
}

bool has_reading(LockoutDeed deed) {
    return deed == LockoutDeed::see_prop || deed == LockoutDeed::try_out ||
           deed == LockoutDeed::reverify;
}

bool counts_people(LockoutDeed deed) {
    return deed == LockoutDeed::clear || deed == LockoutDeed::begin_test ||
           deed == LockoutDeed::leave_zone;
}

bool has_statements(LockoutDeed deed) {
    return (counts_people(deed) && deed != LockoutDeed::leave_zone) ||
           deed == LockoutDeed::remove_for_absent ||
           deed == LockoutDeed::tell;
}

std::string device_of(const Lockout& state, const std::string& person) {
    const auto at = state.locks.find(person);
    return at == state.locks.end() ? "" : at->second.device;
}

Error damaged(const char* key) {
    return Error{ErrorKind::damaged, "this is no lockout", key, "fold the entries again"};
}

// What must be there, and of its type: a missing key is damage and never a default.
template <typename Value>
Result<Value> must(const Json& json, const char* key) {
    const auto at = json.is_object() ? json.find(key) : json.end();
    if (!json.is_object() || at == json.end()) return damaged(key);
    try {
        return at->template get<Value>();
    } catch (const Json::exception&) {
        return damaged(key);
    }
}

Json json_of_plan(const LockoutPlan& plan) {
    return {{"sources", plan.sources}, {"stored", plan.stored}, {"props", plan.props},
            {"locks", plan.locks},     {"second", plan.second},
            {"tags", plan.tags},       {"review", plan.review},
            {"reverify_minutes", plan.reverify_minutes}};
}

// Keys that came later: a lockout opened before them demanded nothing of the kind.
template <typename Value>
Result<Value> since(const Json& json, const char* key) {
    return json.contains(key) ? must<Value>(json, key) : Result<Value>(Value{});
}

Result<LockoutPlan> plan_from(const Json& json) {
    LockoutPlan plan;
    plan.sources = TRY(must<Names>(json, "sources"));
    plan.stored = TRY(must<Names>(json, "stored"));
    plan.props = TRY(must<Names>(json, "props"));
    plan.tags = TRY(since<Names>(json, "tags"));
    plan.review = TRY(since<bool>(json, "review"));
    plan.locks = TRY(must<bool>(json, "locks"));
    plan.second = TRY(must<bool>(json, "second"));
    plan.reverify_minutes = TRY(must<int>(json, "reverify_minutes"));
    return plan;
}

Result<std::map<std::string, Lock>> locks_from(const Json& json) {
    if (!json.is_object()) return damaged("locks");
    std::map<std::string, Lock> locks;
    for (const auto& [person, lock] : json.items()) {
        locks[person] = {TRY(must<std::string>(lock, "device")),
                         TRY(must<std::int64_t>(lock, "placed_ms"))};
    }
    return locks;
}

Result<std::string> one_text(Query& query) {
    return TRY(query.next()) ? query.text(0) : std::string();
}

Result<std::int64_t> one_integer(Query& query) {
    return TRY(query.next()) ? query.integer(0) : std::int64_t{0};
}

}  // namespace

std::string_view kind_of(LockoutDeed deed) { return kKinds[static_cast<std::size_t>(deed)]; }

std::string lockout_text(const Lockout& state) {
    Json locks = Json::object();
    for (const auto& [person, lock] : state.locks) {
        locks[person] = {{"device", lock.device}, {"placed_ms", lock.placed_ms}};
    }
    Json json{{"machine", state.machine},
                {"job", std::string(name_of(state.job))},
                {"plan", json_of_plan(state.plan)},
                {"step", std::string(name_of(state.step))},
                {"lead", state.lead},
                {"isolated", state.isolated},
                {"measured", state.measured},
                {"relieved", state.relieved},
                {"told", state.told},
                {"set_by", state.set_by},
                {"seen_by", state.seen_by},
                {"locks", locks},
                {"opened_ms", state.opened_ms},
                {"verified_ms", state.verified_ms},
                {"moved", state.moved}};
    // Left out where there is none, as in states that were written before it was kept.
    if (!state.damaged.empty()) json["damaged"] = state.damaged;
    return json.dump();
}

Result<Lockout> lockout_from(std::string_view text) {
    const Json json = Json::parse(text, nullptr, false);
    const auto job = lockout_job_named(TRY(must<std::string>(json, "job")));
    const auto step = lockout_step_named(TRY(must<std::string>(json, "step")));
    if (!job) return damaged("job");
    if (!step) return damaged("step");
    Lockout state;
    state.machine = TRY(must<std::string>(json, "machine"));
    state.job = *job;
    state.plan = TRY(plan_from(TRY(must<Json>(json, "plan"))));
    state.step = *step;
    state.lead = TRY(must<std::string>(json, "lead"));
    state.isolated = TRY(must<NameSet>(json, "isolated"));
    state.measured = TRY(since<NameSet>(json, "measured"));
    state.relieved = TRY(must<NameSet>(json, "relieved"));
    state.told = TRY(since<NameSet>(json, "told"));
    state.set_by = TRY(must<ByPerson>(json, "set_by"));
    state.seen_by = TRY(must<ByPerson>(json, "seen_by"));
    state.locks = TRY(locks_from(TRY(must<Json>(json, "locks"))));
    state.opened_ms = TRY(must<std::int64_t>(json, "opened_ms"));
    state.verified_ms = TRY(must<std::int64_t>(json, "verified_ms"));
    state.moved = TRY(must<bool>(json, "moved"));
    state.damaged = TRY(since<NameSet>(json, "damaged"));
    return state;
}

Json lockout_data(const Lockout& state, const LockoutEvent& event) {
    Json data{{"machine", state.machine}};
    if (const char* key = item_key(event.deed)) data[key] = event.item;
    if (has_reading(event.deed)) data["fine"] = event.fine;
    if (has_statements(event.deed)) data["stated"] = event.items;
    if (counts_people(event.deed)) {
        data["seen"] = event.seen.value_or(0);
        data["on"] = people_on(state).size();
    }
    if (event.deed == LockoutDeed::remove_lock) data["device"] = device_of(state, event.by);
    if (event.deed == LockoutDeed::remove_for_absent) {
        data["owner"] = event.owner;
        data["device"] = device_of(state, event.owner);
    }
    if (event.deed == LockoutDeed::hand_over) data["to"] = event.second;
    return data;
}

std::optional<LockoutEvent> lockout_event_of(const Entry& entry) {
    for (std::size_t i = 0; i < kKinds.size(); ++i) {
        if (kKinds[i] != entry.kind) continue;
        LockoutEvent event;
        event.deed = static_cast<LockoutDeed>(i);
        event.by = entry.by.empty() ? "" : entry.by.front();
        event.second = entry.by.size() > 1 ? entry.by[1] : entry.data.value("to", "");
        if (const char* key = item_key(event.deed)) event.item = entry.data.value(key, "");
        event.owner = entry.data.value("owner", "");
        event.items = entry.data.value("stated", Names());
        event.fine = entry.data.value("fine", true);
        const auto seen = entry.data.find("seen");
        if (seen != entry.data.end() && seen->is_number_integer()) event.seen = seen->get<int>();
        event.at_ms = entry.at_ms;
        return event;
    }
    return std::nullopt;
}

Result<std::set<std::string>> visitors_in(Database& db, const LockoutEvent& event) {
    std::set<std::string> visitors;
    for (const std::string& id : {event.by, event.second}) {
        if (id.empty()) continue;
        const auto person = TRY(person_with(db, id));
        if (person && is_visitor(*person)) visitors.insert(id);
    }
    return visitors;
}

Json opening_data(const LockoutOpening& opening, std::string_view machine_class) {
    Json data = json_of_plan(opening.plan);
    data["machine"] = opening.machine;
    data["machine_class"] = std::string(machine_class);
    data["job"] = std::string(name_of(opening.job));
    return data;
}

Result<LockoutOpening> opening_of(const Entry& entry) {
    LockoutOpening opening;
    opening.machine = TRY(must<std::string>(entry.data, "machine"));
    const auto job = lockout_job_named(TRY(must<std::string>(entry.data, "job")));
    if (!job) return damaged("job");
    if (entry.by.empty()) return damaged("by");
    opening.job = *job;
    opening.plan = TRY(plan_from(entry.data));
    opening.by = entry.by.front();
    opening.at_ms = entry.at_ms;
    return opening;
}

Result<std::optional<Lockout>> lockout_of(Database& db, std::string_view machine) {
    Query query = db.query("SELECT state FROM s_lockout WHERE machine=?");
    query.bind(machine);
    if (!TRY(query.next())) return std::optional<Lockout>();
    return std::optional(TRY(lockout_from(query.text(0))));
}

Result<std::vector<Lockout>> lockouts(Database& db) {
    Query query = db.query("SELECT state FROM s_lockout ORDER BY machine");
    std::vector<Lockout> all;
    while (TRY(query.next())) all.push_back(TRY(lockout_from(query.text(0))));
    return all;
}

Result<std::string> machine_with_lock(Database& db, std::string_view device) {
    for (const Lockout& state : TRY(lockouts(db))) {
        for (const auto& [person, lock] : state.locks) {
            if (lock.device == device) return state.machine;
        }
    }
    return std::string();
}

Result<std::string> owner_of_lock(Database& db, std::string_view device) {
    Query query = db.query("SELECT person FROM s_padlock WHERE device=?");
    query.bind(device);
    return one_text(query);
}

Result<std::string> lock_of(Database& db, std::string_view person) {
    Query query =
        db.query("SELECT device FROM s_padlock WHERE person=? ORDER BY at_ms DESC, device LIMIT 1");
    query.bind(person);
    return one_text(query);
}

Result<std::vector<RemovedLock>> removals_to_tell(Database& db, std::string_view person) {
    Query query = db.query(
        "SELECT entry, machine, device, by, second, at_ms FROM s_lock_told WHERE person=? "
        "ORDER BY entry");
    query.bind(person);
    std::vector<RemovedLock> all;
    while (TRY(query.next())) {
        all.push_back({query.integer(0), query.text(1), query.text(2),
                       {query.text(3), query.text(4)}, query.integer(5)});
    }
    return all;
}

Result<std::vector<EndedLockout>> ended_to_tell(Database& db, std::string_view person,
                                                std::int64_t since_ms) {
    Query query = db.query(
        "SELECT o.machine, o.entry, o.lead, o.at_ms FROM s_lockout_over o "
        "JOIN s_machine m ON m.plate=o.machine "
        "JOIN s_authorisation a ON a.class=m.class AND a.person=?1 AND a.entry<o.entry "
        "WHERE o.lead<>?1 AND o.at_ms>=?2 "
        "AND NOT EXISTS (SELECT 1 FROM s_hopper_up h WHERE h.machine=o.machine) "
        "AND NOT EXISTS (SELECT 1 FROM s_lockout l WHERE l.machine=o.machine) "
        "AND NOT EXISTS (SELECT 1 FROM s_lockout_over_told t WHERE t.person=?1 "
        "AND t.machine=o.machine AND t.entry>=o.entry) ORDER BY o.machine");
    query.bind(person).bind(since_ms);
    std::vector<EndedLockout> all;
    while (TRY(query.next())) {
        all.push_back({query.text(0), query.integer(1), query.text(2), query.integer(3)});
    }
    return all;
}

Result<std::optional<ProcedureInspection>> procedure_inspected(Database& db,
                                                               std::string_view machine_class,
                                                               std::string_view procedure) {
    Query query = db.query("SELECT at_ms, by FROM s_procedure WHERE class=? AND procedure=?");
    query.bind(machine_class).bind(procedure);
    if (!TRY(query.next())) return std::optional<ProcedureInspection>();
    return std::optional(ProcedureInspection{query.integer(0), query.text(1)});
}

Result<std::int64_t> procedure_used_ms(Database& db, std::string_view machine_class,
                                       std::string_view person) {
    Query query = db.query("SELECT at_ms FROM s_procedure_use WHERE class=? AND person=?");
    query.bind(machine_class).bind(person);
    return one_integer(query);
}

Result<std::int64_t> procedure_last_used_ms(Database& db, std::string_view machine_class) {
    Query query = db.query("SELECT at_ms FROM s_procedure_last WHERE class=?");
    query.bind(machine_class);
    return one_integer(query);
}

Result<std::int64_t> arm_alone_assessed_ms(Database& db, std::string_view machine_class) {
    Query query = db.query("SELECT at_ms FROM s_arm_alone WHERE class=?");
    query.bind(machine_class);
    return one_integer(query);
}

Result<std::int64_t> rinse_left_ms(Database& db, std::string_view machine) {
    Query query = db.query("SELECT at_ms FROM s_rinse_left WHERE machine=?");
    query.bind(machine);
    return one_integer(query);
}

}  // namespace holdpin
