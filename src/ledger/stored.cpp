// Rows one after the other for whoever copies them out: bytes and leaf, not looked into further.
#include <algorithm>

#include "ledger/ledger.hpp"
#include "ledger/purged.hpp"

namespace holdpin {
namespace {

Error bad_row(std::int64_t n, const char* what) {
    return {ErrorKind::damaged, "entry " + std::to_string(n) + ' ' + what, "ledger",
            "run: holdpin ledger check"};
}

}  // namespace

Result<void> each_stored(Database& db,
                         const std::function<Result<void>(const StoredEntry&)>& visit) {
    auto query = db.query("SELECT n, body, leaf FROM entry ORDER BY n");
    StoredEntry row;
    Purged purged(db, nullptr);
    while (TRY(query.next())) {
        const std::int64_t wanted = row.n + 1;
        row.n = query.integer(0);
        if (row.n != wanted) return bad_row(wanted, "is missing");
        row.body = query.text(1);
        const Bytes leaf = query.blob(2);
        if (leaf.size() != row.leaf.size()) return bad_row(row.n, "has no leaf");
        std::copy(leaf.begin(), leaf.end(), row.leaf.begin());
        const Hash computed =
            leaf_hash({reinterpret_cast<const std::uint8_t*>(row.body.data()), row.body.size()});
        if (row.body.empty() && !TRY(purged.names(row.n))) return bad_row(row.n, "has no body");
        if (!row.body.empty() && computed != row.leaf) return bad_row(row.n, "was altered");
        TRY(visit(row));
    }
    return {};
}

}  // namespace holdpin
