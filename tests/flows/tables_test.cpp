// Every flow that is a table, walked as a graph, and held against the table its header shows.
#include <doctest/doctest.h>

#include <algorithm>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "base/text.hpp"
#include "flows/air_alarm.hpp"
#include "flows/emergency.hpp"
#include "flows/findings.hpp"
#include "flows/guide.hpp"
#include "flows/round.hpp"
#include "flows/tags.hpp"
#include "flows/work.hpp"

using namespace holdpin;

namespace {

// As the comment at the top of the header writes them. A missing value is a warning, thus an error.

std::string word(GuideState state) {
    switch (state) {
        case GuideState::reading:
            return "reading";
        case GuideState::asking:
            return "asking";
        case GuideState::told:
            return "told";
        case GuideState::passed:
            return "passed";
        case GuideState::failed:
            return "failed";
        case GuideState::done:
            return "done";
    }
    return "?";
}

std::string word(GuideEvent event) {
    switch (event) {
        case GuideEvent::next:
            return "next";
        case GuideEvent::answer:
            return "answer";
        case GuideEvent::sign:
            return "sign";
        case GuideEvent::again:
            return "again";
    }
    return "?";
}

std::string word(GuideGuard guard) {
    switch (guard) {
        case GuideGuard::always:
            return "-";
        case GuideGuard::more:
            return "more";
        case GuideGuard::last:
            return "last";
        case GuideGuard::passed:
            return "passed";
        case GuideGuard::failed:
            return "failed";
    }
    return "?";
}

std::string word(RoundState state) {
    switch (state) {
        case RoundState::asking:
            return "asking";
        case RoundState::waiting:
            return "waiting";
        case RoundState::reviewing:
            return "reviewing";
        case RoundState::done:
            return "done";
    }
    return "?";
}

std::string word(RoundEvent event) {
    switch (event) {
        case RoundEvent::read:
            return "read";
        case RoundEvent::next:
            return "next";
        case RoundEvent::withdraw:
            return "withdraw";
        case RoundEvent::sign:
            return "sign";
    }
    return "?";
}

std::string word(RoundGuard guard) {
    switch (guard) {
        case RoundGuard::always:
            return "-";
        case RoundGuard::fine_more:
            return "fine, more";
        case RoundGuard::fine_last:
            return "fine, last";
        case RoundGuard::finding:
            return "finding";
        case RoundGuard::more:
            return "more";
        case RoundGuard::last:
            return "last";
    }
    return "?";
}

std::string word(FindingStage stage) {
    switch (stage) {
        case FindingStage::open:
            return "open";
        case FindingStage::repaired:
            return "repaired";
        case FindingStage::rechecked:
            return "rechecked";
        case FindingStage::closed:
            return "closed";
    }
    return "?";
}

std::string word(FindingEvent event) {
    switch (event) {
        case FindingEvent::repair:
            return "repair";
        case FindingEvent::recheck_fine:
            return "recheck";  // the guard tells the two apart
        case FindingEvent::recheck_bad:
            return "recheck";
        case FindingEvent::allow:
            return "allow";
        case FindingEvent::give_back:
            return "return";
    }
    return "?";
}

std::string word(FindingGuard guard) {
    switch (guard) {
        case FindingGuard::always:
            return "-";
        case FindingGuard::limit_only:
            return "limit";
        case FindingGuard::note_only:
            return "note";
    }
    return "?";
}

std::string word(AlarmState state) {
    switch (state) {
        case AlarmState::leaving:
            return "leaving";
        case AlarmState::counting:
            return "counting";
        case AlarmState::missing:
            return "missing";
        case AlarmState::airing:
            return "airing";
        case AlarmState::entering:
            return "entering";
        case AlarmState::lifted:
            return "lifted";
    }
    return "?";
}

std::string word(WorkState value) {
    switch (value) {
        case WorkState::closed: return "closed";
        case WorkState::asking: return "asking";
        case WorkState::over: return "over";
    }
    return "?";
}

std::string word(AlarmEvent event) {
    switch (event) {
        case AlarmEvent::next:
            return "next";
        case AlarmEvent::tick:
            return "tick";
        case AlarmEvent::counted:
            return "counted";
        case AlarmEvent::door:
            return "door";
        case AlarmEvent::engine:
            return "engine";
        case AlarmEvent::enter:
            return "enter";
        case AlarmEvent::withdraw:
            return "withdraw";
        case AlarmEvent::read:
            return "read";
    }
    return "?";
}

std::string word(WorkEvent value) {
    switch (value) {
        case WorkEvent::open: return "open";
        case WorkEvent::reply: return "reply";
        case WorkEvent::drop: return "drop";
        case WorkEvent::again: return "again";
    }
    return "?";
}

std::string word(AlarmGuard guard) {
    switch (guard) {
        case AlarmGuard::always:
            return "-";
        case AlarmGuard::all_seen:
            return "all seen";
        case AlarmGuard::missing:
            return "missing";
        case AlarmGuard::stays:
            return "stays";
        case AlarmGuard::lifts:
            return "lifts";
    }
    return "?";
}

std::string word(WorkGuard value) {
    switch (value) {
        case WorkGuard::always: return "-";
        case WorkGuard::more: return "more";
        case WorkGuard::last: return "last";
        case WorkGuard::leave: return "leave";
        case WorkGuard::stop: return "stop";
        case WorkGuard::untouched: return "untouched";
        case WorkGuard::changed: return "changed";
    }
    return "?";
}

std::string word(TagState value) {
    switch (value) {
        case TagState::none: return "none";
        case TagState::issued: return "issued";
        case TagState::up: return "up";
        case TagState::off: return "off";
    }
    return "?";
}

std::string word(TagEvent value) {
    switch (value) {
        case TagEvent::hold: return "hold";
        case TagEvent::put_up: return "put-up";
        case TagEvent::withdraw: return "withdraw";
        case TagEvent::read: return "read";
        case TagEvent::give_back: return "return";
    }
    return "?";
}

std::string word(TagGuard value) {
    switch (value) {
        case TagGuard::always: return "-";
        case TagGuard::right: return "right";
        case TagGuard::wrong: return "wrong";
    }
    return "?";
}

std::string word(ReportState value) {
    switch (value) {
        case ReportState::choosing: return "choosing";
        case ReportState::asking: return "asking";
        case ReportState::sheet: return "sheet";
        case ReportState::over: return "over";
    }
    return "?";
}

std::string word(ReportEvent value) {
    switch (value) {
        case ReportEvent::name: return "name";
        case ReportEvent::describe: return "describe";
        case ReportEvent::leave: return "leave";
    }
    return "?";
}

std::string word(ReportGuard value) {
    switch (value) {
        case ReportGuard::always: return "-";
        case ReportGuard::problem: return "problem";
        case ReportGuard::no_start: return "no-start";
    }
    return "?";
}

// One row in words. The states come in the order of the enumeration, the last one ends the flow.
struct WordRow {
    std::string from, event, guard, to, entry;
};

struct WordTable {
    std::string name;
    std::vector<WordRow> rows;
    std::string first, last;
    std::string header;  // under src/flows
};

template <typename Table, typename State>
WordTable in_words(std::string name, const Table& table, State first, State last,
                   std::string header) {
    WordTable made{std::move(name), {}, word(first), word(last), std::move(header)};
    for (const auto& row : table) {
        made.rows.push_back({word(row.from), word(row.event), word(row.guard), word(row.to),
                             std::string(row.entry)});
    }
    return made;
}

std::vector<WordTable> all_tables() {
    return {
        in_words("guide", kGuideTable, GuideState::reading, GuideState::done, "guide.hpp"),
        in_words("round", kRoundTable, RoundState::asking, RoundState::done, "round.hpp"),
        in_words("finding", kFindingTable, FindingStage::open, FindingStage::closed,
                 "findings.hpp"),
        in_words("air alarm", kAirAlarmTable, AlarmState::leaving, AlarmState::lifted,
                 "air_alarm.hpp"),
        in_words("job", kWorkTable, WorkState::closed, WorkState::over, "work.hpp"),
        in_words("tag", kTagTable, TagState::none, TagState::off, "tags.hpp"),
        in_words("report", kReportTable, ReportState::choosing, ReportState::over,
                 "emergency.hpp"),
    };
}

std::string printed(const WordTable& table) {
    const auto padded = [](std::string text) {
        text.resize(std::max<std::size_t>(text.size() + 1, 12), ' ');
        return text;
    };
    std::string text = table.name + "\n";
    for (const WordRow& row : table.rows) {
        text += "  " + padded(row.from) + padded(row.event) + padded(row.guard) + padded(row.to) +
                row.entry + "\n";
    }
    return text;
}

std::set<std::string> states_of(const WordTable& table) {
    std::set<std::string> states;
    for (const WordRow& row : table.rows) states.insert({row.from, row.to});
    return states;
}

std::set<std::string> events_of(const WordTable& table) {
    std::set<std::string> events;
    for (const WordRow& row : table.rows) events.insert(row.event);
    return events;
}

// Every state that can be come to from `start`, itself included, by rows that `allowed` lets pass.
template <typename Allowed>
std::set<std::string> reached(const WordTable& table, const std::string& start, Allowed allowed) {
    std::set<std::string> seen{start};
    for (bool grew = true; grew;) {
        grew = false;
        for (const WordRow& row : table.rows) {
            if (seen.contains(row.from) && allowed(row)) grew |= seen.insert(row.to).second;
        }
    }
    return seen;
}

bool every_row(const WordRow&) { return true; }

// State, event and next state of every row in the table of a header's top comment.
std::vector<WordRow> comment_rows(const std::string& header) {
    const auto text = read_file(std::string(HOLDPIN_TEST_SOURCE_DIR) + "/src/flows/" + header);
    REQUIRE(text.ok());
    std::vector<WordRow> rows;
    bool inside = false;
    for (const std::string& line : split(text.value(), '\n')) {
        std::vector<std::string> cells;
        for (std::size_t at = std::min<std::size_t>(2, line.size()); at < line.size();) {
            const auto from = line.find_first_not_of(' ', at);
            if (from == std::string::npos) break;
            const auto end = std::min(line.find("  ", from), line.size());
            cells.push_back(line.substr(from, end - from));
            at = end;
        }
        const bool heading = cells.size() >= 5 && cells[0] == "state" && cells[3] == "next";
        if (inside && cells.size() < 4) break;
        if (inside) rows.push_back({cells[0], cells[1], cells[2], cells[3], ""});
        inside = inside || heading;
    }
    REQUIRE_FALSE(rows.empty());
    return rows;
}

using Edge = std::tuple<std::string, std::string, std::string>;

std::set<Edge> edges(const std::vector<WordRow>& rows) {
    std::set<Edge> found;
    for (const WordRow& row : rows) found.insert({row.from, row.event, row.to});
    return found;
}

}  // namespace

TEST_CASE("every state of a flow can be come to from the first") {
    for (const WordTable& table : all_tables()) {
        INFO(printed(table));
        CHECK(reached(table, table.first, every_row) == states_of(table));
    }
}

TEST_CASE("every state of a flow but the last has a way out, and a way to the last") {
    for (const WordTable& table : all_tables()) {
        INFO(printed(table));
        for (const std::string& state : states_of(table)) {
            INFO(state);
            const bool leaves = std::any_of(table.rows.begin(), table.rows.end(),
                                            [&](const WordRow& row) { return row.from == state; });
            CHECK(leaves == (state != table.last));
            CHECK(reached(table, state, every_row).contains(table.last));
        }
    }
}

TEST_CASE("no two rows of a flow answer the same state, event and guard") {
    const auto all_different = [](const auto& table) {
        using Row = typename std::decay_t<decltype(table)>::value_type;
        std::set<std::tuple<decltype(Row::from), decltype(Row::event), decltype(Row::guard)>> seen;
        return std::all_of(table.begin(), table.end(), [&](const Row& row) {
            return seen.insert({row.from, row.event, row.guard}).second;
        });
    };
    CHECK(all_different(kGuideTable));
    CHECK(all_different(kRoundTable));
    CHECK(all_different(kFindingTable));
    CHECK(all_different(kAirAlarmTable));
    CHECK(all_different(kWorkTable));
    CHECK(all_different(kTagTable));
    CHECK(all_different(kReportTable));
}

TEST_CASE("no row is hidden behind an earlier one that always holds") {
    const auto hidden = [](const auto& table) {
        for (auto row = table.begin(); row != table.end(); ++row) {
            for (auto before = table.begin(); before != row; ++before) {
                using Guard = decltype(row->guard);
                if (before->from == row->from && before->event == row->event &&
                    (before->guard == Guard::always || before->guard == row->guard)) {
                    return true;
                }
            }
        }
        return false;
    };
    CHECK_FALSE(hidden(kGuideTable));
    CHECK_FALSE(hidden(kRoundTable));
    CHECK_FALSE(hidden(kFindingTable));
    CHECK_FALSE(hidden(kAirAlarmTable));
    CHECK_FALSE(hidden(kWorkTable));
    CHECK_FALSE(hidden(kTagTable));
    CHECK_FALSE(hidden(kReportTable));
}

TEST_CASE("the table in a header's comment names the states, events and steps of the flow") {
    for (const WordTable& table : all_tables()) {
        const WordTable shown{table.name, comment_rows(table.header), table.first, table.last,
                              table.header};
        INFO("the flow: ", printed(table));
        INFO("the comment: ", printed(shown));
        CHECK(states_of(shown) == states_of(table));
        CHECK(events_of(shown) == events_of(table));
        const auto steps = edges(table.rows);
        for (const Edge& step : edges(shown.rows)) {
            INFO(std::get<0>(step), " ", std::get<1>(step), " ", std::get<2>(step));
            CHECK(steps.contains(step));
        }
    }
}

TEST_CASE("a step takes the first row whose guard holds, and refuses where there is none") {
    const auto all = [](GuideGuard) { return true; };
    const auto none = [](GuideGuard) { return false; };
    const auto row = step(kGuideTable, GuideState::told, GuideEvent::next, all);
    REQUIRE(row.has_value());
    CHECK(row->guard == GuideGuard::more);
    CHECK_FALSE(step(kGuideTable, GuideState::told, GuideEvent::next, none).has_value());
    CHECK_FALSE(step(kGuideTable, GuideState::done, GuideEvent::next, all).has_value());
    CHECK_FALSE(step(kGuideTable, GuideState::reading, GuideEvent::sign, all).has_value());
}

TEST_CASE("a round is done only by signing what was reviewed") {
    // Examined before use: 1910.178(q)(7), quoted in an OSHA interpretation of 3 March 2005.
    for (const auto& row : kRoundTable) {
        if (row.to != RoundState::done) continue;
        CHECK(row.from == RoundState::reviewing);
        CHECK(row.event == RoundEvent::sign);
        CHECK(row.entry == "round-signed");
    }
}

TEST_CASE("a finding that holds is closed only after a repair and a re-check that found it fine") {
    const WordTable table = all_tables()[2];
    const auto holds = [](const WordRow& row) { return row.guard != "note"; };
    const auto without = [&](const char* from, const char* event) {
        return reached(table, table.first, [&](const WordRow& row) {
            return holds(row) && !(row.from == from && row.event == event);
        });
    };
    CHECK(reached(table, table.first, holds).contains(table.last));
    CHECK_FALSE(without("open", "repair").contains(table.last));
    CHECK_FALSE(without("repaired", "recheck").contains(table.last));
    CHECK_FALSE(without("rechecked", "return").contains(table.last));
}

TEST_CASE("a guide signs nothing for a quiz that was failed") {
    for (const auto& row : kGuideTable) {
        if (row.from == GuideState::failed) CHECK(row.event == GuideEvent::again);
        if (row.to == GuideState::done) CHECK(row.from == GuideState::passed);
    }
}

TEST_CASE("an air alarm is ended only by a reading, after heads were counted with nobody missing") {
    const WordTable table = all_tables().back();
    REQUIRE(table.name == "air alarm");
    for (const auto& row : kAirAlarmTable) {
        if (row.to != AlarmState::lifted) continue;
        CHECK(row.from == AlarmState::entering);
        CHECK(row.event == AlarmEvent::read);
        CHECK(row.guard == AlarmGuard::lifts);
        CHECK(row.entry == "air-alarm-lifted");
    }
    const auto without = [&](const char* guard) {
        return reached(table, table.first, [&](const WordRow& row) { return row.guard != guard; });
    };
    CHECK_FALSE(without("all seen").contains("airing"));
    CHECK_FALSE(without("all seen").contains("lifted"));
    // From the missing there is one way only: back to counting.
    for (const WordRow& row : table.rows) {
        if (row.from == "missing") CHECK(row.to == "counting");
    }
}
