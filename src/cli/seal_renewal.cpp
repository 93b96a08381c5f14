#include "cli/seal_renewal.hpp"

#include <fmt/format.h>

#include <filesystem>

#include "ledger/check.hpp"

namespace holdpin {

namespace fs = std::filesystem;

Result<std::string> renew_seal_outside(Database& db, const std::string& path,
                                       std::int64_t now_ms) {
    const auto newest = TRY(newest_seal(db));
    if (!newest || path.empty()) {
        return Error{ErrorKind::absent, "there is no seal to put outside, or no folder for it", "",
                     ""};
    }
    std::string aside;
    std::error_code code;
    if (fs::exists(path, code)) {
        aside = fmt::format("{}.no-seal-{}", path, now_ms);
        fs::rename(path, aside, code);
        if (code) return Error{ErrorKind::failed, "cannot move: " + code.message(), path, ""};
    }
    fs::create_directories(fs::path(path).parent_path(), code);
    TRY(write_file(path, seal_body(*newest) + "\n"));
    TRY(note_seal_outside(db));
    std::string said = fmt::format("The seal over {} entries stands outside again: {}.",
                                   newest->size, path);
    if (!aside.empty()) said += " What stood there is now " + aside;
    return said;
}

}  // namespace holdpin
