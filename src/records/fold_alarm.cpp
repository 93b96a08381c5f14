// What entries change about people in bad air: why an alarm stands and who is to be counted, who
// was reported ill, and where that was asked.
#include "records/fold_groups.hpp"

#include <algorithm>
#include <array>

namespace holdpin {
namespace {

// `s_alarm` of the air says that an alarm stands; here stands what came with it.
constexpr const char* kTables = R"sql(
CREATE TABLE IF NOT EXISTS s_alarm_cause(entry INTEGER PRIMARY KEY, room TEXT NOT NULL,
  cause TEXT NOT NULL, listed TEXT NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_symptoms(entry INTEGER PRIMARY KEY, room TEXT NOT NULL,
  at_ms INTEGER NOT NULL, count INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_symptoms_asked(room TEXT NOT NULL, shift_ms INTEGER NOT NULL,
  entry INTEGER NOT NULL, PRIMARY KEY(room, shift_ms)) STRICT;
)sql";
constexpr std::array kTableNames{"s_alarm_cause", "s_symptoms", "s_symptoms_asked"};

Result<void> air_alarm_raised(const Folding& f) {
    std::vector<std::string> listed = f.strings("present");
    for (const std::string& person : f.entry.by) {
        if (std::find(listed.begin(), listed.end(), person) == listed.end()) {
            listed.push_back(person);
        }
    }
    return f.db.query("INSERT INTO s_alarm_cause VALUES(?,?,?,?)")
        .bind(f.entry.n).bind(f.text("room")).bind(f.text("cause"))
        .bind(nlohmann::json(listed).dump())
        .run();
}

Result<void> air_alarm_lifted(const Folding& f) {
    return f.db.query("DELETE FROM s_alarm_cause WHERE room=?").bind(f.text("room")).run();
}

Result<void> symptoms_reported(const Folding& f) {
    return f.db.query("INSERT INTO s_symptoms VALUES(?,?,?,?)")
        .bind(f.entry.n).bind(f.text("room")).bind(f.entry.at_ms).bind(f.integer("count"))
        .run();
}

Result<void> symptoms_asked(const Folding& f) {
    return f.db.query("INSERT OR REPLACE INTO s_symptoms_asked VALUES(?,?,?)")
        .bind(f.text("room")).bind(f.integer("shift_ms")).bind(f.entry.n)
        .run();
}

constexpr std::array kKinds{
    FoldKind{"air-alarm-raised", air_alarm_raised},
    FoldKind{"air-alarm-lifted", air_alarm_lifted},
    FoldKind{"symptoms-reported", symptoms_reported},
    FoldKind{"symptoms-asked", symptoms_asked},
};

}  // namespace

const FoldGroup kAlarmFolds{kTables, kTableNames, kKinds};

}  // namespace holdpin
