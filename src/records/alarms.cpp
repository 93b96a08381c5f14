#include "records/alarms.hpp"

#include <nlohmann/json.hpp>

#include "base/text.hpp"

namespace holdpin {
namespace {

constexpr const char* kAlarms =
    "SELECT a.room, a.ppm, a.at_ms, a.entry, coalesce(c.cause,''), coalesce(c.listed,'[]') "
    "FROM s_alarm a LEFT JOIN s_alarm_cause c ON c.entry=a.entry "
    "WHERE ?='' OR a.room=? ORDER BY a.entry";

Result<std::vector<AirAlarm>> alarms(Database& db, std::string_view room) {
    Query query = db.query(kAlarms);
    query.bind(room).bind(room);
    std::vector<AirAlarm> found;
    while (TRY(query.next())) {
        AirAlarm alarm;
        alarm.room = query.text(0);
        if (!query.text(1).empty()) alarm.ppm = TRY(parse_decimal(query.text(1)));
        alarm.at_ms = query.integer(2);
        alarm.entry = query.integer(3);
        alarm.cause = alarm_cause(query.text(4));
        const auto listed = nlohmann::json::parse(query.text(5), nullptr, false);
        if (listed.is_array()) alarm.listed = listed.get<std::vector<std::string>>();
        found.push_back(std::move(alarm));
    }
    return found;
}

}  // namespace

Result<std::vector<AirAlarm>> standing_alarms(Database& db) { return alarms(db, ""); }

Result<std::optional<AirAlarm>> air_alarm_of(Database& db, std::string_view room) {
    if (room.empty()) return std::optional<AirAlarm>();
    auto found = TRY(alarms(db, room));
    if (found.empty()) return std::optional<AirAlarm>();
    return std::optional(std::move(found.front()));
}

Result<std::vector<IllReport>> ill_reports(Database& db, std::string_view room,
                                           std::int64_t from_ms) {
    Query query = db.query(
        "SELECT at_ms, count FROM s_symptoms WHERE room=? AND at_ms>=? ORDER BY entry");
    query.bind(room).bind(from_ms);
    std::vector<IllReport> reports;
    while (TRY(query.next())) {
        reports.push_back({query.integer(0), static_cast<int>(query.integer(1))});
    }
    return reports;
}

Result<bool> symptoms_asked(Database& db, std::string_view room, std::int64_t shift_ms) {
    Query query = db.query("SELECT 1 FROM s_symptoms_asked WHERE room=? AND shift_ms=?");
    query.bind(room).bind(shift_ms);
    return query.next();
}

}  // namespace holdpin
