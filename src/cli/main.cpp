// Reads the options and calls one command. The only file that knows the option library.
#include <CLI/CLI.hpp>

#include "cli/commands.hpp"

namespace holdpin {
namespace {

// Everything the options fill, and what is to be run at the end.
struct Asked {
    Common common;
    KioskOptions kiosk;
    CalcOptions calc;
    DriveOptions drive;
    BinderAsked binder;
    BinderCheckAsked binder_check;
    RestoreOptions restore;
    PurgeOptions purge;
    AboutOptions about;
    std::string path;
    std::vector<std::string> paths;
    std::vector<std::string> renamed;
    std::vector<std::uint64_t> numbers;
    std::string witness;
    bool every_signature = false;
    bool renew_seal = false;
    std::string room;
    std::string instrument;
    std::vector<int> window;
    std::function<int()> run;
};

CLI::App* command(CLI::App& parent, const char* name, const char* what, Asked& asked,
                  std::function<int()> run) {
    CLI::App* sub = parent.add_subcommand(name, what);
    sub->callback([&asked, run = std::move(run)] { asked.run = run; });
    return sub;
}

void take_data(CLI::App* sub, Asked& asked) {
    sub->add_option("--data", asked.common.data, "the site's data directory")
        ->capture_default_str()
        ->type_name("DIR");
}

void take_seal_copies(CLI::App* sub, Asked& asked) {
    sub->add_option("--seal-copy", asked.common.seal_copies,
                    "folder for the copy of the newest seal, away from the data; \"\" for none")
        ->capture_default_str()
        ->type_name("DIR");
}

void take_content(CLI::App* sub, Asked& asked) {
    sub->add_option("--content", asked.common.asked.content, "content in place of the usual")
        ->type_name("DIR");
    sub->add_option("--assets", asked.common.asked.assets, "drawings in place of the usual")
        ->type_name("DIR");
}

void take_json(CLI::App* sub, Asked& asked) {
    sub->add_flag("--json", asked.common.json, "say it as JSON");
}

void add_kiosk(CLI::App& app, Asked& asked) {
    CLI::App* sub = command(app, "kiosk", "open the kiosk, full screen", asked, [&asked] {
        if (asked.window.size() == 2) {
            asked.kiosk.in_window = true;
            asked.kiosk.width = asked.window[0];
            asked.kiosk.height = asked.window[1];
        }
        return run_kiosk(asked.common, asked.kiosk);
    });
    take_data(sub, asked);
    take_seal_copies(sub, asked);
    take_content(sub, asked);
    sub->add_option("--window", asked.window, "in a window of this size")
        ->expected(2)
        ->check(CLI::Range(320, 8192))
        ->type_name("WIDTH HEIGHT");
    sub->add_option("--px-per-mm", asked.kiosk.px_per_mm, "pixels to a millimetre, measured")
        ->check(CLI::Range(1.0, 40.0));
    sub->add_option("--binders", asked.kiosk.binder_folders,
                    "folder for binders, beside those of the site's file; may be given again")
        ->type_name("DIR");
    sub->add_option("--tags", asked.kiosk.tag_folder,
                    "folder into which tags are put as PDF; absent: tags, in the data folder")
        ->type_name("DIR");
    sub->add_option("--tag-printer", asked.kiosk.tag_printer,
                    "command that prints a tag: \"lp -d dock\"; gets the file as its last word")
        ->type_name("WORDS");
    sub->add_option("--stamper", asked.kiosk.stamper,
                    "command that asks a time authority once a day: \"curl … @{query} URL\"")
        ->type_name("WORDS");
    sub->add_option("--backups", asked.kiosk.backups,
                    "folder for the daily backup, on another disk; \"\" for none")
        ->capture_default_str()
        ->type_name("DIR");
    sub->add_flag("--pointer", asked.kiosk.pointer, "show the mouse pointer");
}

void take_renamed(CLI::App* sub, Asked& asked) {
    sub->add_option("--renamed", asked.renamed, "an enrolled person who has a new name")
        ->type_name("ID")
        ->allow_extra_args(false);
}

void add_site(CLI::App& app, Asked& asked) {
    CLI::App* init = command(app, "init", "set a site up", asked,
                             [&asked] { return run_init(asked.common, asked.path); });
    take_data(init, asked);
    take_content(init, asked);
    init->add_option("--site", asked.path, "folder or file of the site's TOML")
        ->required()
        ->type_name("DIR-OR-FILE");

    CLI::App* proof = command(app, "proof", "check content and sites", asked,
                              [&asked] { return run_proof(asked.common, asked.paths); });
    proof->add_option("path", asked.paths, "files or folders; none: the whole content");
    take_content(proof, asked);
    take_json(proof, asked);

    CLI::App* adopt =
        command(app, "adopt", "take over changed content or a changed site", asked,
                [&asked] { return run_adopt(asked.common, asked.path, asked.renamed); });
    adopt->add_option("dir", asked.path, "a folder with rulesets/, or this site's folder")
        ->required();
    take_renamed(adopt, asked);
    take_data(adopt, asked);
    take_seal_copies(adopt, asked);
    take_content(adopt, asked);

    CLI::App* people = app.add_subcommand("people", "who is enrolled");
    people->require_subcommand(1);
    CLI::App* import = command(
        *people, "import",
        "enrol people from a table with the columns id, name, badge, language, duties and, if "
        "wanted, endorsements, extension, competence, listed_until",
        asked,
        [&asked] { return run_people_import(asked.common, asked.path, asked.renamed); });
    import->add_option("csv", asked.path, "RFC 4180, one row a person")->required();
    take_renamed(import, asked);
    CLI::App* about = command(*people, "about-me", "write down all that is stored about a person",
                              asked, [&asked] { return run_about_me(asked.common, asked.about); });
    about->add_option("--person", asked.about.person, "whose records")->required()->type_name("ID");
    about->add_option("out", asked.about.out, "a folder that does not exist yet")
        ->required()
        ->type_name("OUT");
    for (CLI::App* sub : {import, about}) {
        take_data(sub, asked);
        take_seal_copies(sub, asked);
        take_content(sub, asked);
    }
}

void add_air(CLI::App& app, Asked& asked) {
    CLI::App* air = app.add_subcommand("air", "carbon monoxide as meters read it");
    air->require_subcommand(1);
    CLI::App* import = command(
        *air, "import", "enter every reading of a meter's log, zeros too, as exposure records",
        asked, [&asked] {
            return run_air_import(asked.common, asked.path, asked.room, asked.instrument);
        });
    import->add_option("file", asked.path, "a table with the columns time and ppm")->required();
    import->add_option("--room", asked.room, "where the meter was")->required()->type_name("ROOM");
    import->add_option("--instrument", asked.instrument, "what stands on the meter")
        ->required()
        ->type_name("NAME");
    take_data(import, asked);
    take_content(import, asked);

    CLI::App* fit = command(*air, "fit", "rolling means, the fitted room and its forecast", asked,
                            [&asked] { return run_air_fit(asked.common, asked.room); });
    fit->add_option("--room", asked.room, "which room")->required()->type_name("ROOM");
    take_data(fit, asked);
    take_content(fit, asked);
    take_json(fit, asked);
}

void add_proofs(CLI::App& ledger, Asked& asked) {
    CLI::App* witness = command(ledger, "witness", "seal, and say the code for the shift book",
                                asked, [&asked] { return run_ledger_witness(asked.common); });
    CLI::App* prove = command(
        ledger, "prove", "a proof as JSON: of one entry, or that one size goes on from another",
        asked, [&asked] { return run_ledger_prove(asked.common, asked.numbers); });
    prove->add_option("numbers", asked.numbers, "an entry, or the old and the new size")
        ->required()
        ->expected(1, 2)
        ->type_name("N | OLD NEW");
    for (CLI::App* sub : {witness, prove}) {
        take_data(sub, asked);
        take_seal_copies(sub, asked);
    }
    CLI::App* query = command(
        ledger, "stamp-query", "seal, and write what a time authority is asked (RFC 3161)", asked,
        [&asked] { return run_ledger_stamp_query(asked.common, asked.path); });
    query->add_option("out", asked.path, "the file to be sent")->required()->type_name("OUT");
    CLI::App* reply = command(
        ledger, "stamp-reply", "keep what a time authority replied", asked,
        [&asked] { return run_ledger_stamp_reply(asked.common, asked.path); });
    reply->add_option("reply", asked.path, "the file that came back")
        ->required()
        ->type_name("FILE");
    for (CLI::App* sub : {query, reply}) {
        take_data(sub, asked);
        take_seal_copies(sub, asked);
    }
    take_content(reply, asked);
    CLI::App* key = command(ledger, "key", "the kiosk's public key as PEM", asked,
                            [&asked] { return run_ledger_key(asked.common); });
    take_data(key, asked);
}

void add_binder(CLI::App& app, Asked& asked) {
    CLI::App* binder = app.add_subcommand("binder", "the records as files for others");
    binder->require_subcommand(1);
    CLI::App* make = command(
        *binder, "make", "tables, entries, seals and how to check them, in a new folder or zip",
        asked, [&asked] { return run_binder_make(asked.common, asked.binder); });
    make->add_option("out", asked.binder.path, "a folder or .zip that does not exist yet")
        ->required()
        ->type_name("OUT");
    make->add_option("--from", asked.binder.from, "first day of the tables")->type_name("DATE");
    make->add_option("--to", asked.binder.to, "last day of the tables")->type_name("DATE");
    make->add_option("--person", asked.binder.person, "tables of one person")->type_name("ID");
    make->add_option("--machine", asked.binder.machine, "tables of one machine")
        ->type_name("PLATE");
    take_data(make, asked);
    take_seal_copies(make, asked);
    take_content(make, asked);

    CLI::App* check = command(*binder, "check", "whether a binder is as a kiosk made it", asked,
                              [&asked] { return run_binder_check(asked.binder_check); });
    check->add_option("binder", asked.binder_check.path, "its folder, or its zip")
        ->required()
        ->type_name("DIR-OR-ZIP");
    check->add_option("--kiosk", asked.binder_check.kiosk, "the kiosk's number, as noted on paper")
        ->type_name("ID");
    check->add_option("--witness", asked.binder_check.witnesses,
                      "a witness code of the paper shift book; may be given again")
        ->type_name("CODE@SIZE");
}

void add_ledger(CLI::App& app, Asked& asked) {
    CLI::App* ledger = app.add_subcommand("ledger", "the append-only record");
    ledger->require_subcommand(1);
    CLI::App* check = command(*ledger, "check", "compute every hash again", asked, [&asked] {
        return run_ledger_check(asked.common,
                                {asked.witness, asked.every_signature, asked.renew_seal});
    });
    take_data(check, asked);
    take_json(check, asked);
    take_seal_copies(check, asked);
    check->add_option("--witness", asked.witness, "a code from the shift book")
        ->type_name("CODE[@SIZE]");
    check->add_flag("--every-signature", asked.every_signature,
                    "verify every seal's signature, where there are very many, too");
    check->add_flag("--renew-seal", asked.renew_seal,
                    "with --witness: put the seal outside again, where it is gone or spoiled");
    add_proofs(*ledger, asked);
    CLI::App* rebuild = command(*ledger, "rebuild", "fold the present state again", asked,
                                [&asked] { return run_ledger_rebuild(asked.common); });
    take_data(rebuild, asked);
    CLI::App* purge = command(
        *ledger, "purge", "take out what is over: words, names, entries down to their hash",
        asked, [&asked] { return run_ledger_purge(asked.common, asked.purge); });
    purge->add_option("--as-of", asked.purge.as_of, "as of this day in place of today")
        ->type_name("DATE");
    purge->add_flag("--yes", asked.purge.yes, "do it; else it is only said");
    purge->add_option("--by", asked.purge.badges, "badge of one of the two; the PIN is asked for")
        ->type_name("BADGE");
    take_data(purge, asked);
    take_seal_copies(purge, asked);
    take_content(purge, asked);
}

void add_backups(CLI::App& app, Asked& asked) {
    CLI::App* backup = command(app, "backup", "a checked copy of the records into a folder", asked,
                               [&asked] { return run_backup(asked.common, asked.path); });
    backup->add_option("folder", asked.path, "a folder, on a stick for example")->required();
    CLI::App* restore = command(app, "restore", "put a backup in the place of the records", asked,
                                [&asked] { return run_restore(asked.common, asked.restore); });
    restore->add_option("backup", asked.restore.backup, "a file that backup made")->required();
    restore->add_flag("--older", asked.restore.older,
                      "although it is older than a known seal; two people say so");
    restore->add_option("--by", asked.restore.badges, "badge; the PIN is asked for")
        ->type_name("BADGE");
    for (CLI::App* sub : {backup, restore}) {
        take_data(sub, asked);
        take_seal_copies(sub, asked);
    }
}

void add_calc(CLI::App& app, Asked& asked) {
    CLI::App* calc = command(app, "calc", "work an estimate out: room air, LP gas, noise and more",
                             asked, [&asked] { return run_calc(asked.common, asked.calc); });
    calc->add_option("name", asked.calc.name, "which estimate, see --list")->type_name("NAME");
    calc->add_option("values", asked.calc.words, "its keys, each with a plain number or a word")
        ->type_name("KEY=VALUE");
    calc->add_flag("--list", asked.calc.list, "say every name, its keys, units and source");
    calc->add_option("--units", asked.calc.units, "of what is said; keys stay as they are named")
        ->check(CLI::IsMember({"metric", "us"}))
        ->capture_default_str();
    take_json(calc, asked);
}

void add_scripts(CLI::App& app, Asked& asked) {
    CLI::App* rehearse = command(app, "rehearse", "run shifts on paper", asked,
                                 [&asked] { return run_rehearse(asked.common, asked.paths); });
    rehearse->add_option("file", asked.paths, "scripts")->required();
    take_content(rehearse, asked);
    take_json(rehearse, asked);

    CLI::App* drive = command(app, "drive", "run a shift through the real screens", asked,
                              [&asked] { return run_drive(asked.common, asked.drive); });
    drive->add_option("file", asked.drive.script, "a script")->required();
    drive->add_option("--out", asked.drive.out, "where pictures go")
        ->capture_default_str()
        ->type_name("DIR");
    drive->add_option("--data", asked.drive.data, "a site on the disk in place of a new one")
        ->type_name("DIR");
    drive->add_option("--seal-copy", asked.common.seal_copies, "with --data: folder for the seal")
        ->type_name("DIR");
    drive->add_flag("--tell", asked.drive.tell, "say after each act how many entries are stored");
    drive->add_option("--records", asked.drive.records, "make a binder of the records")
        ->type_name("OUT");
    drive->add_flag("--every-page", asked.drive.every_page, "a picture of every page");
    drive->add_flag("--audit", asked.drive.audit, "judge the layout of every screen");
    drive->add_flag("--silent", asked.drive.silent, "as on a kiosk without a loudspeaker");
    drive->add_flag("--without-display", asked.drive.without_display, "and without pictures");
    take_content(drive, asked);
}

int read_and_run(int count, char** words) {
    CLI::App app("Holds an industrial machine until a trained, current and authorised person has "
                 "walked its round. An administrative control, not a safety-rated device.",
                 "holdpin");
    app.set_version_flag("--version", "holdpin " HOLDPIN_VERSION);
    app.require_subcommand(1);
    Asked asked;
    asked.common.data = default_data_dir();
    asked.common.seal_copies = default_seal_copies();
    asked.kiosk.backups = default_backups();
    add_kiosk(app, asked);
    add_site(app, asked);
    add_air(app, asked);
    add_binder(app, asked);
    add_ledger(app, asked);
    add_backups(app, asked);
    add_calc(app, asked);
    add_scripts(app, asked);
    try {
        app.parse(count, words);
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? kExitFine : kExitWrongUse;
    }
    return asked.run();
}

}  // namespace
}  // namespace holdpin

int main(int count, char** words) { return holdpin::read_and_run(count, words); }
