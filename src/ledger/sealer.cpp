#include "ledger/sealer.hpp"

#include <filesystem>

#include "ledger/check.hpp"

namespace holdpin {
namespace {

constexpr std::uint64_t kMostUnsealed = 64;

}  // namespace

Result<void> Sealer::seal() {
    const std::uint64_t size = ledger_.size();
    const auto kept = TRY(newest_kept_seal(db_));
    if (size <= (kept ? kept->size : 0)) return {};
    // Two seals over the same would differ in nothing but their time.
    const auto newest = TRY(newest_seal(db_));
    if (newest && newest->size == size) return keep_seal(db_, *newest);
    return keep_seal(db_, make_seal(parts_.key, size, ledger_.root(), clock_.now_ms()));
}

Result<bool> Sealer::is_due() {
    const auto kept = TRY(newest_kept_seal(db_));
    return ledger_.size() >= (kept ? kept->size : 0) + kMostUnsealed;
}

Result<void> Sealer::seal_if_due() {
    if (TRY(is_due())) return seal();
    return {};
}

Result<void> Sealer::seal_along() {
    const std::uint64_t size = ledger_.size();
    if (TRY(is_due())) return seal();
    if (size <= TRY(newest_sealed_size(db_))) return {};
    return move_seal(db_, make_seal(parts_.key, size, ledger_.root(), clock_.now_ms()));
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
