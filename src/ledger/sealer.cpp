#include "ledger/sealer.hpp"

#include <filesystem>

#include "ledger/check.hpp"

namespace holdpin {
namespace {

constexpr std::uint64_t kMostUnsealed = 64;

}  // namespace

Result<void> Sealer::seal() {
    const std::uint64_t size = ledger_.size();
    if (size <= TRY(newest_sealed_size(db_))) return {};
    return keep_seal(db_, make_seal(parts_.key, size, ledger_.root(), clock_.now_ms()));
}

Result<void> Sealer::seal_if_due() {
    if (ledger_.size() < TRY(newest_sealed_size(db_)) + kMostUnsealed) return {};
    return seal();
}

void Sealer::keep_copy() {
    if (parts_.copy_path.empty() || db_.in_transaction()) return;
    const auto newest = newest_seal(db_);
    Result<void> done;
    if (!newest) {
        done = newest.error();
    } else if (newest.value() && newest.value()->size != copied_size_) {
        done = write_copy(*newest.value());
    }
    // Once is enough until it works again.
    if (!done && !complained_ && parts_.complain) parts_.complain(done.error());
    complained_ = !done.ok();
}

Result<void> Sealer::write_copy(const Seal& seal) {
    // What is no seal of ours stays: somebody has put it there.
    TRY(seal_outside(parts_.copy_path, parts_.key.public_key));
    std::error_code failed;
    std::filesystem::create_directories(std::filesystem::path(parts_.copy_path).parent_path(),
                                        failed);
    TRY(write_file(parts_.copy_path, seal_body(seal) + "\n"));
    if (copied_size_ == 0) TRY(note_seal_outside(db_));
    copied_size_ = seal.size;
    return {};
}

}  // namespace holdpin
