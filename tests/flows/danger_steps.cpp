#include "danger_steps.hpp"

#include <algorithm>
#include <set>

#include "flows/air_alarm_work.hpp"
#include "flows/emergency.hpp"
#include "records/lockout.hpp"
#include "records/works.hpp"
#include "table_words.hpp"

namespace holdpin {
namespace {

using Kinds = std::set<std::string>;

Kinds kinds_about(const std::vector<Entry>& entered, const char* key, const std::string& subject) {
    Kinds kinds;
    for (const Entry& entry : entered) {
        if (entry.data.value(key, std::string()) == subject) kinds.insert(entry.kind);
    }
    return kinds;
}

Kinds kinds_about(const std::vector<Entry>& entered, std::int64_t finding) {
    Kinds kinds;
    for (const Entry& entry : entered) {
        const auto named = entry.data.find("findings");
        const bool lists = named != entry.data.end() && named->is_array() &&
                           std::find(named->begin(), named->end(), finding) != named->end();
        if (lists || entry.about == finding) kinds.insert(entry.kind);
    }
    return kinds;
}

std::string listed(const Kinds& kinds) {
    std::string text;
    for (const std::string& kind : kinds) text += " " + kind;
    return text;
}

// `elsewhere`: entries of the table that other work makes, too.
template <typename Table, typename State>
std::string wrong_step(const std::string& subject, const Table& table, State from, State to,
                       const Kinds& kinds, const std::set<std::string_view>& elsewhere = {}) {
    const std::string told =
        subject + ": " + word(from) + " -> " + word(to) + " with" + listed(kinds);
    const auto has = [&](std::string_view kind) { return kinds.contains(std::string(kind)); };
    const auto along = [&](const auto& row) { return row.from == from && row.to == to; };
    const bool moved = std::any_of(table.begin(), table.end(), [&](const auto& row) {
        return along(row) && (row.entry.empty() || has(row.entry));
    });
    if (from != to && !moved) return "no such step, or no entry for it: " + told;
    for (const auto& row : table) {
        if (row.entry.empty() || !has(row.entry) || elsewhere.contains(row.entry)) continue;
        const bool own = std::any_of(table.begin(), table.end(), [&](const auto& other) {
            return other.entry == row.entry && along(other);
        });
        if (!own) return "an entry out of its turn: " + told;
    }
    return "";
}

template <typename Map>
std::set<typename Map::key_type> both_keys(const Map& one, const Map& other) {
    std::set<typename Map::key_type> keys;
    for (const auto& [key, value] : one) keys.insert(key);
    for (const auto& [key, value] : other) keys.insert(key);
    return keys;
}

// Of something that begins with an entry of its own, which is no row of its table.
template <typename Map, typename State, typename Check>
std::string wrong_life(const Map& before, const Map& after, const std::string& key,
                       const Kinds& kinds, const char* begins, const std::set<State>& first,
                       State last, Check check) {
    const auto was = before.find(key);
    const auto is = after.find(key);
    if (was == before.end()) {
        const bool begun = kinds.contains(begins) && first.contains(is->second);
        return begun ? "" : key + " began without " + begins + ":" + listed(kinds);
    }
    return check(was->second, is == after.end() ? last : is->second);
}

std::string wrong_alarm(const Standing& before, const Standing& after, const std::string& room,
                        const std::vector<Entry>& entered) {
    const Kinds kinds = kinds_about(entered, "room", room);
    return wrong_life(before.alarms, after.alarms, room, kinds, "air-alarm-raised",
                      {AlarmState::leaving}, AlarmState::lifted,
                      [&](AlarmState from, AlarmState to) {
                          return wrong_step(room, kAirAlarmTable, from, to, kinds,
                                            {"air-read", "door-set"});
                      });
}

std::string wrong_lockout(const Standing& before, const Standing& after,
                          const std::string& machine, const std::vector<Entry>& entered) {
    const Kinds kinds = kinds_about(entered, "machine", machine);
    return wrong_life(before.lockouts, after.lockouts, machine, kinds, "lockout-opened",
                      {LockoutStep::reviewing, LockoutStep::shutdown}, LockoutStep::closed,
                      [&](LockoutStep from, LockoutStep to) {
                          // A lock comes off or changes hands at every step; see lockout.hpp.
                          return wrong_step(machine, kLockoutTable, from, to, kinds,
                                            {"lock-removed", "lock-removed-for-absent",
                                             "lock-handed-over"});
                      });
}

std::string wrong_job(const Standing& before, const Standing& after, const std::string& machine,
                      const Kinds& kinds) {
    const auto was = before.jobs.find(machine);
    const auto is = after.jobs.find(machine);
    const bool asked = was != before.jobs.end();
    const bool asks = is != after.jobs.end();
    if (asked && asks && !(was->second == is->second) && !kinds.contains("work-step-done") &&
        !kinds.contains("work-opened")) {
        return machine + ": the step of a job changed without an entry";
    }
    const WorkState from = asked ? WorkState::asking : WorkState::closed;
    const WorkState over = asked ? WorkState::over : WorkState::closed;
    return wrong_step(machine, kWorkTable, from, asks ? WorkState::asking : over, kinds);
}

std::string wrong_tag(const Standing& before, const Standing& after, const std::string& machine,
                      const Kinds& kinds) {
    const auto was = before.tags.find(machine);
    const auto is = after.tags.find(machine);
    const TagState from = was == before.tags.end() ? TagState::none : was->second;
    const TagState gone = from == TagState::none ? TagState::none : TagState::off;
    return wrong_step(machine, kTagTable, from, is == after.tags.end() ? gone : is->second, kinds,
                      {"finding-withdrawn", "returned-to-service"});
}

std::string wrong_finding(const Standing& before, const Standing& after, std::int64_t finding,
                          const std::vector<Entry>& entered) {
    const auto was = before.findings.find(finding);
    if (was == before.findings.end()) {
        const bool is_new = std::any_of(entered.begin(), entered.end(), [&](const Entry& entry) {
            return entry.n == finding && entry.kind == "finding-entered";
        });
        return is_new ? "" : "a finding out of nothing";
    }
    const auto is = after.findings.find(finding);
    const Kinds kinds = kinds_about(entered, finding);
    if (is == after.findings.end() && kinds.contains("finding-withdrawn")) return "";
    return wrong_step("finding " + std::to_string(finding), kFindingTable, was->second.stage,
                      is == after.findings.end() ? FindingStage::closed : is->second.stage, kinds);
}

}  // namespace

bool Standing::holds(const std::string& machine) const {
    return jobs.contains(machine) || lockouts.contains(machine);
}

Standing standing_of(const Shop& shop) {
    Database& db = *shop.site->db;
    Standing made;
    for (const Machine& one : shop.site->content.site.machines) {
        const std::string& machine = one.plate;
        const auto work = work_on(db, machine);
        REQUIRE(work.ok());
        if (work.value()) made.jobs[machine] = {work.value()->running.work, work.value()->step};
        const auto tag = tag_of(db, machine);
        REQUIRE(tag.ok());
        if (tag.value()) made.tags[machine] = state_of(tag.value());
    }
    const auto locked = lockouts(db);
    const auto alarms = standing_alarms(db);
    const auto open = open_findings(db);
    REQUIRE((locked.ok() && alarms.ok() && open.ok()));
    for (const Lockout& one : locked.value()) made.lockouts[one.machine] = one.step;
    for (const AirAlarm& alarm : alarms.value()) {
        made.alarms[alarm.room] = alarm_work(db, alarm).value().state;
    }
    for (const FindingRow& row : open.value()) {
        made.findings[row.finding.entry] = {row.machine, stage_of(row)};
    }
    return made;
}

std::string wrong_move(const Standing& before, const Standing& after,
                       const std::vector<Entry>& entered) {
    std::set<std::string> machines = both_keys(before.jobs, after.jobs);
    machines.merge(both_keys(before.tags, after.tags));
    for (const Entry& entry : entered) {
        const std::string machine = entry.data.value("machine", std::string());
        if (!machine.empty()) machines.insert(machine);
    }
    std::string wrong;
    for (const std::string& machine : machines) {
        const Kinds kinds = kinds_about(entered, "machine", machine);
        wrong += wrong_job(before, after, machine, kinds);
        wrong += wrong_tag(before, after, machine, kinds);
    }
    for (const std::string& machine : both_keys(before.lockouts, after.lockouts)) {
        wrong += wrong_lockout(before, after, machine, entered);
    }
    for (const std::string& room : both_keys(before.alarms, after.alarms)) {
        wrong += wrong_alarm(before, after, room, entered);
    }
    for (const std::int64_t finding : both_keys(before.findings, after.findings)) {
        wrong += wrong_finding(before, after, finding, entered);
    }
    return wrong;
}

std::string wrong_report(const std::string& page_id, const std::string& action,
                         const std::vector<Entry>& entered) {
    ReportState at = ReportState::over;
    if (page_id == "report/machine" || page_id == "no-start/machine") at = ReportState::choosing;
    const bool asks = page_id.starts_with("report/what/") || page_id == "report/who" ||
                      page_id == "badge";
    if (asks) at = ReportState::asking;
    if (page_id == "no-start/secured") at = ReportState::sheet;
    for (const Entry& entry : entered) {
        const std::string source = entry.data.value("source", std::string());
        const bool reported = entry.kind == "finding-entered" &&
                              (source == "report" || source == "no-start");
        const bool answered =
            entry.kind == "finding-described" || entry.kind == "finding-secured";
        if (!reported && !answered) continue;
        const bool own = std::any_of(kReportTable.begin(), kReportTable.end(),
                                     [&](const ReportRow& row) {
                                         return row.from == at && row.entry == entry.kind;
                                     });
        if (!own) return entry.kind + " from the page " + page_id;
        if (!reported) continue;
        const std::string named = "report:" + entry.data.value("machine", std::string());
        if (action != named) return "another machine than the one named: " + action;
        if ((source == "no-start") != (page_id == "no-start/machine")) return "another report";
    }
    return "";
}

}  // namespace holdpin
