// What must be true of any ledger with danger work in it, however it came about.
//   release   none while a stop finding, a job, a lockout, or for an engine an air alarm stands
//   job       no step out of its turn, and none while a lockout runs on the machine
//   lockout   every deed follows from the state before it; none is closed with a lock or prop on
//   alarm     lifted only after everybody was counted outside, by a signed reading below the level
//   no-start  closed only after somebody with the LP repair permission stated the repair, and by
//             somebody who may return machines: no operator ever clears one
//   tag       one a machine; read and put up only while it is there, by its own code; one that is
//             not there, or another, is a stop finding at once; none hangs on a machine in service
//   leaks     counted one by one on each machine, until its coupling was soaped and dry or it came
//             back with another hose
#pragma once

#include <doctest/doctest.h>

#include <map>
#include <set>
#include <string>

#include "records/lockout.hpp"

namespace holdpin {

// Who may do what, by person.
struct Entitled {
    std::set<std::string> repair_gas;
    std::set<std::string> give_back;  // to service
};

class DangerPromises {
  public:
    DangerPromises(Entitled entitled, double reentry_ppm)
        : entitled_(std::move(entitled)), reentry_ppm_(reentry_ppm) {}

    void see(const Entry& entry) {
        INFO("entry " << entry.n << " " << entry.kind << " " << entry.data.dump());
        ++count[entry.kind];
        const std::string machine = entry.data.value("machine", std::string());
        see_findings(entry, machine);
        see_job(entry, machine);
        see_lockout(entry, machine);
        see_alarm(entry);
        see_tag(entry, machine);
        see_leak(entry, machine);
        if (entry.kind == "release-given") see_release(entry, machine);
    }
    // By entries of the machine; an alarm holds by its room.
    bool holds(const std::string& machine) const {
        return step_.contains(machine) || lockout_.contains(machine) || has_stop(machine);
    }

    std::map<std::string, std::size_t> count;  // of entries, by kind

  private:
    struct Finding {
        std::string machine;
        bool no_start = false;
        bool repaired = false;
    };

    struct HungTag {
        std::string code;
        bool up = false;
    };

    bool has_stop(const std::string& machine) const {
        for (const auto& [entry, finding] : stops_) {
            if (finding.machine == machine) return true;
        }
        return false;
    }
    void see_findings(const Entry& entry, const std::string& machine) {
        if (entry.kind == "finding-entered" && entry.data.at("outcome") == "stop") {
            stops_[entry.n] = {machine, entry.data.at("point") == "no-start", false};
        }
        if (entry.kind == "finding-withdrawn") {
            const auto at = stops_.find(entry.about);
            if (at != stops_.end()) CHECK_FALSE(at->second.no_start);
            stops_.erase(entry.about);
        }
        if (entry.kind == "returned-to-service") {
            CHECK(entitled_.give_back.contains(entry.by.front()));
        }
        if (entry.kind != "repair-stated" && entry.kind != "returned-to-service") return;
        for (const auto& n : entry.data.at("findings")) {
            const auto at = stops_.find(n.get<std::int64_t>());
            if (at == stops_.end()) continue;
            if (entry.kind == "returned-to-service") {
                CHECK(at->second.repaired);
                stops_.erase(at);
            } else {
                at->second.repaired = true;
                if (at->second.no_start) CHECK(entitled_.repair_gas.contains(entry.by.front()));
            }
        }
    }
    void see_job(const Entry& entry, const std::string& machine) {
        if (entry.kind == "work-opened") {
            CHECK_FALSE(lockout_.contains(machine));
            step_[machine] = entry.data.at("step").get<std::string>();
        } else if (entry.kind.starts_with("work-")) {
            REQUIRE(step_.contains(machine));
            CHECK_FALSE(lockout_.contains(machine));
            CHECK(entry.data.value("step", std::string()) == step_[machine]);
            if (entry.kind == "work-step-done") {
                step_[machine] = entry.data.at("next").get<std::string>();
            } else {
                step_.erase(machine);
            }
        }
    }
    void see_lockout(const Entry& entry, const std::string& machine) {
        if (entry.kind == "lockout-opened") {
            CHECK_FALSE(lockout_.contains(machine));
            lockout_[machine] = opened(opening_of(entry).value());
            return;
        }
        const auto event = lockout_event_of(entry);
        if (!event) return;
        REQUIRE(lockout_.contains(machine));
        const auto after = apply(lockout_[machine], *event);
        REQUIRE(after.ok());
        if (holds_machine(after.value())) {
            lockout_[machine] = after.value();
            return;
        }
        CHECK(after.value().locks.empty());
        CHECK(after.value().set_by.empty());
        lockout_.erase(machine);
    }
    void see_alarm(const Entry& entry) {
        const std::string room = entry.data.value("room", std::string());
        if (entry.kind == "air-alarm-raised") {
            CHECK_FALSE(outside_.contains(room));
            outside_[room] = false;
        }
        if (entry.kind == "heads-counted") {
            REQUIRE(outside_.contains(room));
            outside_[room] = entry.data.at("missing").empty();
        }
        if (entry.kind == "air-read") last_read_[room] = entry;
        if (entry.kind == "air-alarm-lifted") {
            REQUIRE(outside_.contains(room));
            CHECK(outside_[room]);
            CHECK(entitled_.give_back.contains(entry.by.front()));
            const Entry& read = last_read_[room];
            CHECK(read.n + 1 == entry.n);
            CHECK(read.by == entry.by);
            CHECK(read.data.contains("signature"));
            CHECK(std::stod(read.data.at("ppm").get<std::string>()) < reentry_ppm_);
            outside_.erase(room);
        }
    }
    void see_tag(const Entry& entry, const std::string& machine) {
        if (entry.kind == "tag-issued") {
            CHECK_FALSE(tag_.contains(machine));
            CHECK(has_stop(machine));
            tag_[machine] = {entry.data.at("code").get<std::string>(), false};
        }
        if (entry.kind == "tag-put-up") {
            CHECK(tag_[machine].code == entry.data.at("code"));
            tag_[machine].up = true;
        }
        CHECK((!mismatched_ || entry.kind == "finding-entered"));
        if (mismatched_) CHECK(entry.data.at("outcome") == "stop");
        mismatched_ = false;
        if (entry.kind == "tag-read") {
            CHECK(tag_[machine].up);
            tag_[machine].up = entry.data.at("matches").get<bool>();
            mismatched_ = !tag_[machine].up;
        }
        // One that nobody has put up goes with the last finding that was a slip.
        const bool slip = entry.kind == "finding-withdrawn" && !has_stop(machine);
        if (slip && tag_.contains(machine) && !tag_[machine].up) tag_.erase(machine);
        if (entry.kind == "returned-to-service" && entry.data.contains("tag")) {
            CHECK_FALSE(has_stop(machine));
            CHECK(tag_[machine].code == entry.data.at("tag"));
            tag_.erase(machine);
        }
    }
    void see_leak(const Entry& entry, const std::string& machine) {
        if (entry.kind == "finding-entered" && entry.data.contains("leak")) {
            hose_[machine] = entry.n;
        } else if (entry.data.contains("leak")) {
            CHECK(entry.data.at("leak") == leaks_[machine] + 1);
            ++leaks_[machine];
        }
        bool mended = entry.data.value("tight", false);
        if (entry.kind == "returned-to-service" && hose_.contains(machine)) {
            for (const auto& n : entry.data.at("findings")) mended |= n == hose_[machine];
        }
        if (!mended) return;
        leaks_.erase(machine);
        hose_.erase(machine);
    }
    void see_release(const Entry& entry, const std::string& machine) {
        CHECK_FALSE(holds(machine));
        CHECK_FALSE((tag_.contains(machine) && tag_[machine].up));
        const bool engine = machine != "BW-03";  // the one without
        CHECK_FALSE((engine && outside_.contains(entry.data.at("room").get<std::string>())));
    }

    Entitled entitled_;
    double reentry_ppm_;
    std::map<std::int64_t, Finding> stops_;
    std::map<std::string, std::string> step_;  // of the job that runs, by machine
    std::map<std::string, Lockout> lockout_;
    std::map<std::string, bool> outside_;  // alarm by room: everybody was counted outside
    std::map<std::string, Entry> last_read_;  // by room
    std::map<std::string, HungTag> tag_;
    bool mismatched_ = false;                 // by the last entry
    std::map<std::string, int> leaks_;        // since the coupling was tight, by machine
    std::map<std::string, std::int64_t> hose_;  // finding at the end of the ladder
};

}  // namespace holdpin
