#include "records/works.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kWorkColumns =
    "SELECT machine, entry, work, by, opened_ms, digest, step, last_step, last_answer, last_by, "
    "place, drain, cylinder FROM s_work";

WorkRow work_row(const Query& query) {
    return {query.text(0),
            {query.integer(1), query.text(2), query.text(3), query.integer(4)},
            query.text(5),
            query.text(6),
            query.text(7),
            query.text(8),
            query.text(9),
            query.text(10),
            query.text(11),
            query.text(12)};
}

}  // namespace

Result<std::optional<WorkRow>> work_on(Database& db, std::string_view machine) {
    Query query = db.query(std::string(kWorkColumns) + " WHERE machine=?");
    query.bind(machine);
    if (!TRY(query.next())) return std::optional<WorkRow>();
    return std::optional(work_row(query));
}

Result<std::vector<WorkRow>> works_of(Database& db, std::string_view person) {
    Query query = db.query(std::string(kWorkColumns) + " WHERE last_by=? ORDER BY entry DESC");
    query.bind(person);
    std::vector<WorkRow> rows;
    while (TRY(query.next())) rows.push_back(work_row(query));
    return rows;
}

Result<int> leaks_of(Database& db, std::string_view machine) {
    Query query = db.query("SELECT leaks FROM s_leak WHERE machine=?");
    query.bind(machine);
    return TRY(query.next()) ? static_cast<int>(query.integer(0)) : 0;
}

Result<std::optional<std::string>> fitted_on(Database& db, std::string_view machine) {
    Query query = db.query("SELECT serial FROM s_fitted WHERE machine=?");
    query.bind(machine);
    if (!TRY(query.next())) return std::optional<std::string>();
    return std::optional(query.text(0));
}

Result<std::vector<UnlistedCylinder>> unlisted_cylinders(Database& db) {
    Query query = db.query("SELECT entry, machine, state, at_ms FROM s_unlisted ORDER BY entry");
    std::vector<UnlistedCylinder> all;
    while (TRY(query.next())) {
        all.push_back({query.integer(0), query.text(1), query.text(2), query.integer(3)});
    }
    return all;
}

Result<bool> is_hopper_up(Database& db, std::string_view machine) {
    Query query = db.query("SELECT 1 FROM s_hopper_up WHERE machine=?");
    query.bind(machine);
    return query.next();
}

Result<std::vector<WetFloor>> wet_floors(Database& db) {
    Query query = db.query("SELECT room, machine, at_ms FROM s_wet ORDER BY at_ms, room");
    std::vector<WetFloor> floors;
    while (TRY(query.next())) floors.push_back({query.text(0), query.text(1), query.integer(2)});
    return floors;
}

Result<std::optional<Tag>> tag_of(Database& db, std::string_view machine) {
    Query query = db.query(
        "SELECT machine, code, finding, issued_ms, put_up, put_up_by, read_by FROM s_tag "
        "WHERE machine=?");
    query.bind(machine);
    if (!TRY(query.next())) return std::optional<Tag>();
    return std::optional(Tag{query.text(0), query.text(1), query.integer(2), query.integer(3),
                             query.integer(4) != 0, query.text(5), query.text(6)});
}

}  // namespace holdpin
