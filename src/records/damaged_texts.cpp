#include "records/damaged_texts.hpp"

#include <fmt/format.h>

#include "base/text.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

constexpr std::size_t kMostNamed = 20;

Result<void> find_entries(Database& db, std::vector<DamagedText>& damaged) {
    Query rows = db.query("SELECT n, body FROM entry ORDER BY n");
    while (TRY(rows.next())) {
        const auto body = rows.blob_view(1);
        const std::string_view text(reinterpret_cast<const char*>(body.data()), body.size());
        for (DamagedText& one : damaged) {
            if (text.find(one.hash) != text.npos) one.entries.push_back(rows.integer(0));
        }
    }
    return {};
}

}  // namespace

Result<std::vector<DamagedText>> damaged_texts(Database& db) {
    std::vector<DamagedText> damaged;
    TRY(each_altered_text(db, [&](const std::string& hash, const std::string& about) {
        damaged.push_back({hash, about, {}});
    }));
    if (!damaged.empty()) TRY(find_entries(db, damaged));
    return damaged;
}

std::string damaged_sentence(const DamagedText& text) {
    std::vector<std::string> entries;
    for (const auto n : text.entries) {
        if (entries.size() < kMostNamed) entries.push_back(std::to_string(n));
    }
    if (entries.size() < text.entries.size()) entries.push_back("…");
    const std::string where = entries.empty() ? "in no entry" : "entries " + joined(entries, ", ");
    return fmt::format("a private text is not the one that was kept ({}; about {})", where,
                       text.about.empty() ? "nobody" : text.about);
}

}  // namespace holdpin
