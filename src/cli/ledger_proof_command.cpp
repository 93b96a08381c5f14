// What is taken away from the kiosk to check it elsewhere: witness code, public key, proofs, and
// the seal that a time authority is to stamp.
#include <fmt/format.h>

#include "base/text.hpp"
#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/site_data.hpp"
#include "cli/stored_records.hpp"
#include "cli/time_stamps.hpp"
#include "flows/watches.hpp"
#include "ledger/proof.hpp"
#include "ledger/seal.hpp"
#include "ledger/time_stamp.hpp"
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

Result<void> query_into(const Common& common, const std::string& path) {
    const auto records = TRY(open_records(common.data));
    TRY(seal_now(*records, common.data, common.seal_copies));
    const auto seal = TRY(newest_kept_seal(*records->db));
    if (!seal) return Error{ErrorKind::absent, "there is no seal to be stamped", common.data, ""};
    TRY(write_file(path, stamp_query(stamped_digest(*seal))));
    say(fmt::format("{} asks for a time stamp over the seal of {} entries, {}.", path, seal->size,
                    seal->time));
    say("Send it to a time authority as application/timestamp-query; then give what comes back to "
        "holdpin ledger stamp-reply.");
    return {};
}

Result<void> keep_reply(const Common& common, const std::string& path) {
    const std::string reply = TRY(read_file(path));
    RealClock clock;
    SystemRandom random;
    const auto site = TRY(open_site(common.data, resolved(common.asked, common.data), clock, random,
                                    PinCost::interactive, common.seal_copies));
    if (!site->ledger_doubt.empty()) return no_stamp_in_doubt();
    auto fact = stamp_fact(*site->db, reply);
    if (!fact) return Error{fact.error().kind, fact.error().what, path, fact.error().mend};
    World world = site->world();
    TRY(ClockWatch().look(world));  // what this enters would hide how the clock stood before
    const Entry entry = TRY(site->book->enter(std::move(fact).value()));
    TRY(site->sealer->seal());
    site->sealer->keep_copy();
    say(fmt::format("Entry {} keeps it: the seal of {} entries existed at {}.", entry.n,
                    entry.data["size"].get<std::int64_t>(),
                    entry.data["time"].get<std::string>()));
    say("Whose clock that was is not judged here; HOW-TO-CHECK.md of a binder says how.");
    return {};
}

int exit_of(const Result<void>& done) { return done ? kExitFine : complain(done.error()); }

}  // namespace

int run_ledger_stamp_query(const Common& common, const std::string& out) {
    return exit_of(query_into(common, out));
}

int run_ledger_stamp_reply(const Common& common, const std::string& reply) {
    return exit_of(keep_reply(common, reply));
}

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
