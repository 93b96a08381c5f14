#include <fmt/format.h>

#include "cli/backup.hpp"
#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/stored_records.hpp"

namespace holdpin {
namespace {

Result<BackupDone> made(const Common& common, const std::string& folder) {
    const auto records = TRY(open_records(common.data));
    const KioskKey key = TRY(load_kiosk_key(common.data + "/kiosk.key"));
    // In doubt nothing is sealed; whether there can be a backup, its check says.
    const auto sealed = seal_now(*records, common.data, common.seal_copies);
    if (!sealed) complain(sealed.error());
    Evidence evidence;
    evidence.public_key = key.public_key;
    evidence.outside =
        TRY(seal_outside(seal_copy_path(common.seal_copies, key.kiosk_id()), key.public_key));
    return back_up(*records->db, backup_path(folder, key.kiosk_id(), records->clock.now_ms()),
                   evidence);
}

}  // namespace

int run_backup(const Common& common, const std::string& folder) {
    const auto done = made(common, folder);
    if (!done) return complain(done.error());
    say(fmt::format("{} entries and {} seals are in {}; the copy was checked.",
                    done.value().entries, done.value().seals, done.value().path));
    say("Not in it: kiosk.key, pepper and site/ of the data folder.");
    say("Keep a copy of those elsewhere.");
    for (const DamagedText& text : done.value().texts) {
        complain({ErrorKind::damaged, damaged_sentence(text), "", kTextMend});
    }
    return done.value().texts.empty() ? kExitFine : kExitWanting;
}

}  // namespace holdpin
