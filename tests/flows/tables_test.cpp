// Every flow that is a table, walked as a graph, and held against the table its header shows.
#include <doctest/doctest.h>

#include <algorithm>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "base/text.hpp"
#include "table_words.hpp"

using namespace holdpin;

namespace {

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
        in_words("lockout", kLockoutTable, LockoutStep::reviewing, LockoutStep::closed,
                 "lockout.hpp"),
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

using TableEdge = std::tuple<std::string, std::string, std::string>;

std::set<TableEdge> edges(const std::vector<WordRow>& rows) {
    std::set<TableEdge> found;
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
    CHECK(all_different(kLockoutTable));
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
    CHECK_FALSE(hidden(kLockoutTable));
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
        for (const TableEdge& step : edges(shown.rows)) {
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
    std::vector<WordTable> tables = all_tables();
    std::erase_if(tables, [](const WordTable& one) { return one.name != "air alarm"; });
    REQUIRE(tables.size() == 1);
    const WordTable& table = tables.front();
    for (const auto& row : kAirAlarmTable) {
        if (row.to != AlarmState::lifted) continue;
        CHECK((row.from == AlarmState::entering || row.from == AlarmState::airing));
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

TEST_CASE("work in a lockout begins only after it was tried, or was looked at again") {
    // Verification comes before the work: 1910.147(d)(6), read in a secondary copy.
    for (const auto& row : kLockoutTable) {
        if (row.to != LockoutStep::working || row.from == LockoutStep::working) continue;
        INFO(word(row.from), " ", word(row.event));
        const bool rinse = row.from == LockoutStep::propping ||
                           row.from == LockoutStep::isolating ||
                           row.from == LockoutStep::relieving;
        CHECK((rinse || row.event == LockoutDeed::try_out || row.event == LockoutDeed::reverify));
    }
}
