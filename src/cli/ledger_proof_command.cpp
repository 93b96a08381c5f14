// What is taken away from the kiosk to check it elsewhere: witness code, public key, proofs.
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/stored_records.hpp"
#include "ledger/proof.hpp"
#include "ledger/seal.hpp"
#include "ledger/witness.hpp"

namespace holdpin {
namespace {

Result<nlohmann::json> proof_of(const Common& common, const std::vector<std::uint64_t>& numbers) {
    const auto records = TRY(open_records(common.data));
    Ledger& ledger = *records->ledger;
    if (numbers.size() == 2) {
        return consistency_json(*records->db, ledger, numbers[0], numbers[1]);
    }
    // What is newer than the newest seal is sealed now.
    if (numbers[0] > TRY(newest_sealed_size(*records->db)) && numbers[0] <= ledger.size()) {
        TRY(seal_now(*records, common.data, common.seal_copies));
    }
    return inclusion_json(*records->db, ledger, static_cast<std::int64_t>(numbers[0]));
}

Result<std::string> witness_of(const Common& common) {
    const auto records = TRY(open_records(common.data));
    TRY(seal_now(*records, common.data, common.seal_copies));
    const Ledger& ledger = *records->ledger;
    return fmt::format("{} @ {}", witness_code(ledger.size(), ledger.root()), ledger.size());
}

}  // namespace

int run_ledger_witness(const Common& common) {
    const auto line = witness_of(common);
    if (!line) return complain(line.error());
    say(line.value());
    say("Write it by hand into the shift book, with date and time.");
    return kExitFine;
}

int run_ledger_key(const Common& common) {
    const auto key = load_kiosk_key(common.data + "/kiosk.key");
    if (!key) return complain(key.error());
    std::string pem = public_key_pem(key.value().public_key);
    pem.pop_back();  // say() ends the line
    say(pem);
    return kExitFine;
}

int run_ledger_prove(const Common& common, const std::vector<std::uint64_t>& numbers) {
    const auto proof = proof_of(common, numbers);
    if (!proof) return complain(proof.error());
    say_json(proof.value());
    return kExitFine;
}

}  // namespace holdpin
