// One function a command. Each says what it has to say on standard output, what went wrong as one
// sentence on standard error, and returns the exit code. Options are read in main.cpp only.
#pragma once

#include <string>
#include <vector>

#include "cli/paths.hpp"

namespace holdpin {

enum ExitCode : int {
    kExitFine = 0,
    kExitWanting = 1,   // looked, and found something wanting; or it could not be done
    kExitWrongUse = 2,  // the command was not understood
};

// What many commands take.
struct Common {
    std::string data;   // the data directory
    ContentDirs asked;  // content and drawings in place of the usual ones
    bool json = false;  // what is read out comes as JSON
    std::string seal_copies = {};  // folder for the seal kept outside the data; empty: none
};

struct KioskOptions {
    bool in_window = false;  // in place of the full screen
    int width = 1280;
    int height = 800;
    double px_per_mm = 0;    // 0: the usual one of the size
    std::string backups;     // folder for the daily backup; empty: none, and no daily check
    bool pointer = false;
    std::vector<std::string> binder_folders = {};  // beside those of the site's file
    std::string tag_folder = {};   // for tags; empty: that in the data folder
    std::string stamper = {};      // command that asks a time authority; empty: none is asked
    std::string tag_printer = {};  // command and its words; empty: no printer
};
int run_kiosk(const Common& common, const KioskOptions& options);

int run_init(const Common& common, const std::string& site);
int run_proof(const Common& common, const std::vector<std::string>& paths);
// `renamed`: ids of people who stand there under a new name.
int run_adopt(const Common& common, const std::string& from,
              const std::vector<std::string>& renamed);
int run_people_import(const Common& common, const std::string& csv,
                      const std::vector<std::string>& renamed);
int run_air_import(const Common& common, const std::string& log, const std::string& room,
                   const std::string& instrument);
int run_air_fit(const Common& common, const std::string& room);
struct BinderAsked {
    std::string path;
    std::string from;  // dates; empty: from the first, to the last
    std::string to;
    std::string person;
    std::string machine;
};
int run_binder_make(const Common& common, const BinderAsked& asked);
struct BinderCheckAsked {
    std::string path;
    std::string kiosk;                   // number noted on paper; empty: none
    std::vector<std::string> witnesses;  // "CODE@SIZE", as the shift book has them
};
int run_binder_check(const BinderCheckAsked& asked);
struct LedgerCheckAsked {
    std::string witness;           // a code from the shift book, or empty
    bool every_signature = false;  // of seals, where there are very many, too
    bool renew_seal = false;       // put the seal outside again, if the code was found
};
int run_ledger_check(const Common& common, const LedgerCheckAsked& asked);
int run_ledger_witness(const Common& common);
int run_ledger_key(const Common& common);
// One number: that this entry is under a seal; two: that the second size goes on from the first.
int run_ledger_prove(const Common& common, const std::vector<std::uint64_t>& numbers);
// For a time authority (RFC 3161): its query as a file, and the reply to it as an entry.
int run_ledger_stamp_query(const Common& common, const std::string& out);
int run_ledger_stamp_reply(const Common& common, const std::string& reply);
int run_ledger_rebuild(const Common& common);
struct PurgeOptions {
    std::string as_of;  // a date; empty: today
    bool yes = false;   // do it; else only say what would go
    std::vector<std::string> badges;  // of the two people who answer for it
};
int run_ledger_purge(const Common& common, const PurgeOptions& options);
// Everything that names a person, as a text, as JSON and as a PDF, into a new folder.
struct AboutOptions {
    std::string person;
    std::string out;
};
int run_about_me(const Common& common, const AboutOptions& options);

// A checked copy of the records in a folder.
int run_backup(const Common& common, const std::string& folder);
struct RestoreOptions {
    std::string backup;
    bool older = false;               // it is known to be older than a seal
    std::vector<std::string> badges;  // of the two people who say so
};
int run_restore(const Common& common, const RestoreOptions& options);

// An estimate of hazard/ by its name, from words such as "volume_m3=2000".
struct CalcOptions {
    std::string name;
    std::vector<std::string> words;
    std::string units = "metric";  // or "us"; of what is said, keys and JSON stay as they are
    bool list = false;             // say what there is in place of an estimate
};
int run_calc(const Common& common, const CalcOptions& options);

int run_rehearse(const Common& common, const std::vector<std::string>& scripts);

struct DriveOptions {
    std::string script;
    std::string data;              // a site on the disk; empty: a new one in memory
    bool tell = false;             // after each act, how many entries are on the disk
    std::string out = "out";       // where pictures go
    std::string records;           // where the records go afterwards; empty: nowhere
    bool without_display = false;  // everything but the pictures
    bool every_page = false;       // a picture of every page, not only of those asked for
    bool audit = false;            // every screen on the way is audited, too
    bool silent = false;           // as on a kiosk without a loudspeaker
};
int run_drive(const Common& common, const DriveOptions& options);

}  // namespace holdpin
