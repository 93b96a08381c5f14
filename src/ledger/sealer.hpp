// Puts seals on the ledger and keeps a copy of the newest outside the data directory, where a data
// file that was copied back does not take it along. A seal becomes durable with the entries it
// covers; the copy is written after them. A copy that cannot be written is said, and stops nothing.
#pragma once

#include <functional>
#include <string>

#include "base/clock.hpp"
#include "ledger/ledger.hpp"
#include "ledger/seal.hpp"

namespace holdpin {

class Sealer {
  public:
    struct Parts {
        KioskKey key;
        std::string copy_path;                      // empty: no copy is kept
        std::function<void(const Error&)> complain; // null: nobody listens
    };
    Sealer(Database& db, Ledger& ledger, Clock& clock, Parts parts)
        : db_(db), ledger_(ledger), clock_(clock), parts_(std::move(parts)) {}

    // Seals the entries as they are, within the transaction that is running or at once, with a seal
    // that stays. Where that was done already, or there are none, nothing happens.
    Result<void> seal();
    // seal(), if 64 entries or more have none over them that stays.
    Result<void> seal_if_due();
    // seal_if_due(), and else the moving seal is brought to the last entry.
    Result<void> seal_along();
    // Brings the copy up to the newest seal. To be called after the transaction; inside one it
    // does nothing, since what it would write may never have happened.
    void keep_copy();

    const KioskKey& key() const { return parts_.key; }

  private:
    Result<bool> is_due();
    Result<void> write_copy(const Seal& seal);
    Database& db_;
    Ledger& ledger_;
    Clock& clock_;
    Parts parts_;
    std::uint64_t copied_size_ = 0;
    bool complained_ = false;
};

}  // namespace holdpin
