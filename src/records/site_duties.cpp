#include "records/site_duties.hpp"

namespace holdpin {

Result<std::optional<EyewashRun>> last_eyewash_run(Database& db) {
    Query query = db.query("SELECT at_ms, by FROM s_eyewash");
    if (!TRY(query.next())) return std::optional<EyewashRun>();
    return std::optional(EyewashRun{query.integer(0), query.text(1)});
}

}  // namespace holdpin
