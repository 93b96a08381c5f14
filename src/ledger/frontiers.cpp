#include "ledger/frontiers.hpp"

#include <algorithm>
#include <bit>

namespace holdpin {

Result<Frontier> kept_frontier(Database& db, std::uint64_t size) {
    auto query =
        db.query("SELECT size, peaks FROM frontier WHERE size <= ? ORDER BY size DESC LIMIT 1");
    query.bind(static_cast<std::int64_t>(size));
    if (!TRY(query.next())) return Frontier();
    const auto kept = static_cast<std::uint64_t>(query.integer(0));
    const auto bytes = query.blob_view(1);
    std::vector<Hash> peaks(static_cast<std::size_t>(std::popcount(kept)));
    if (bytes.size() != peaks.size() * sizeof(Hash)) return Frontier();
    for (std::size_t i = 0; i < peaks.size(); ++i) {
        const auto one = bytes.subspan(i * sizeof(Hash), sizeof(Hash));
        std::copy(one.begin(), one.end(), peaks[i].begin());
    }
    return Frontier::from(kept, std::move(peaks));
}

Result<void> keep_frontier_if_due(Database& db, const Frontier& frontier) {
    if (frontier.size() == 0 || frontier.size() % kFrontierStep != 0) return {};
    Bytes bytes;
    for (const Hash& peak : frontier.peaks()) bytes.insert(bytes.end(), peak.begin(), peak.end());
    return db.query("INSERT OR REPLACE INTO frontier (size, peaks) VALUES (?, ?)")
        .bind(static_cast<std::int64_t>(frontier.size()))
        .bind(bytes)
        .run();
}

Result<void> drop_frontiers(Database& db) { return db.execute("DELETE FROM frontier"); }

}  // namespace holdpin
