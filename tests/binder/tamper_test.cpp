// Binders that were changed afterwards, judged by the check and by the script that is printed in
// HOW-TO-CHECK.md, which needs nothing of ours.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <nlohmann/json.hpp>
#include <utility>

#include "base/sha256.hpp"
#include "binder/check.hpp"
#include "binder/folder.hpp"
#include "bound.hpp"
#include "ledger/base64.hpp"
#include "ledger/seal.hpp"
#include "ledger/time_stamp.hpp"
#include "outside.hpp"
#include "records/retention.hpp"
#include "support/time_authority.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

std::string printed_script(const Bound& f) {
    const std::string text = f.file("HOW-TO-CHECK.md");
    const std::string fence = "```python\n";
    const auto begin = text.find(fence) + fence.size();
    return text.substr(begin, text.find("```", begin) - begin);
}

struct Judged {
    Bound f;
    std::string script = (f.dir / "check.py").string();

    Judged() {
        f.made();
        REQUIRE(write_file(script, printed_script(f)).ok());
    }
    std::string path(const std::string& name) const { return f.out() + "/" + name; }
    void write(const std::string& name, const std::string& bytes) const {
        REQUIRE(write_file(path(name), bytes).ok());
    }
    Ran by_script() const { return outside("/usr/bin/python3 " + script + " " + f.out()); }
    Result<CheckedBinder> by_program() const {
        return check_binder(f.out(), f.dir.string(), nullptr);
    }
    // Sums and their signature made anew, as somebody with a key of that kind could.
    void sign_again(const KioskKey& key) const {
        BinderFolder folder(f.out());
        for (const auto& item : fs::recursive_directory_iterator(f.out())) {
            const std::string name = fs::relative(item.path(), f.out()).string();
            if (item.is_regular_file() && !name.starts_with("SHA256SUMS")) {
                REQUIRE(folder.note(name).ok());
            }
        }
        write("SHA256SUMS", folder.sums());
        const std::string sums = folder.sums();
        const Bytes signature = sign(key, Bytes(sums.begin(), sums.end()));
        write("SHA256SUMS.sig", std::string(signature.begin(), signature.end()));
    }
    void both_find(const std::string& where, const std::string& what) const {
        const auto program = by_program();
        REQUIRE_FALSE(program.ok());
        CHECK(program.error().where == where);
        CHECK_MESSAGE(program.error().what.find(what) != std::string::npos, program.error().what);
        const Ran script_found = by_script();
        CHECK(script_found.code == 1);
        CHECK_MESSAGE(script_found.said.starts_with("WRONG: "), script_found.said);
    }
};

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("a stamp that is over another seal than its name says is found") {
    const TimeAuthority authority;
    Judged judged;
    Bound& f = judged.f;
    const Seal stamped = newest_kept_seal(*f.db).value().value();
    const std::string reply = authority.reply_to(stamp_query(stamped_digest(stamped)));
    f.enter({"seal-stamped", {}, "", 0,
             {{"size", stamped.size}, {"root", hex(stamped.root)}, {"time", "now"},
              {"reply", base64(Bytes(reply.begin(), reply.end()))}}});
    f.clock.pass(kDay);
    REQUIRE(f.sealer.seal().ok());
    fs::remove_all(f.out());
    f.made();
    const auto fine = judged.by_program();
    REQUIRE_MESSAGE(fine.ok(), (fine.ok() ? "" : fine.error().sentence()));
    CHECK(fine.value().stamps == 1);
    CHECK(judged.by_script().code == 0);

    const auto named = [](std::uint64_t size) { return fmt::format("stamps/{:010}.tsr", size); };
    fs::rename(judged.path(named(stamped.size)), judged.path(named(stamped.size + 1)));
    judged.sign_again(f.key);
    const auto moved = judged.by_program();
    REQUIRE_FALSE(moved.ok());
    CHECK(moved.error().where == named(stamped.size + 1));
    // A name that only ends in the number, or has another form, is no name of a stamp.
    std::string from = named(stamped.size + 1);
    for (const std::string& to : {fmt::format("stamps/1{:010}.tsr", stamped.size),
                                  fmt::format("stamps/{}.tsr", stamped.size),
                                  fmt::format("stamps/x{:010}.tsr", stamped.size),
                                  fmt::format("stamps/{:010}-.tsr", stamped.size),
                                  fmt::format("stamps/{:010}.tsr.tsr", stamped.size),
                                  fmt::format("stamps/{:011}.tsr", stamped.size)}) {
        fs::rename(judged.path(std::exchange(from, to)), judged.path(to));
        judged.sign_again(f.key);
        CHECK_MESSAGE(!judged.by_program().ok(), to);
    }
    const std::string further = fmt::format("stamps/{:010}-2.tsr", stamped.size);
    fs::rename(judged.path(from), judged.path(further));
    judged.sign_again(f.key);
    CHECK(judged.by_program().ok());
    fs::remove(judged.path(further));
    judged.write(named(stamped.size), "no reply");
    judged.sign_again(f.key);
    CHECK(judged.by_program().error().what.find("no reply") != std::string::npos);
}

TEST_CASE("the printed script has forty lines and finds an untouched binder in order") {
    const Judged judged;
    const std::string script = printed_script(judged.f);
    CHECK(std::count(script.begin(), script.end(), '\n') <= 40);
    const Ran found = judged.by_script();
    CHECK_MESSAGE(found.code == 0, found.said);
    CHECK(found.said.find(judged.f.key.kiosk_id()) != std::string::npos);
    CHECK(found.said.find(std::to_string(judged.f.ledger->size()) + " entries, 3 seals") !=
          std::string::npos);
}

TEST_CASE("one byte changed in any file, or one file less, is found and named by both") {
    const Judged judged;
    std::vector<std::string> names;
    for (const auto& item : fs::recursive_directory_iterator(judged.f.out())) {
        if (item.is_regular_file()) {
            names.push_back(fs::relative(item.path(), judged.f.out()).string());
        }
    }
    CHECK(names.size() > 30);
    for (const auto& name : names) {
        CAPTURE(name);
        const std::string before = judged.f.file(name);
        std::string after = before;
        if (after.empty()) after = "x";
        after[after.size() / 2] = static_cast<char>(after[after.size() / 2] ^ 1);
        judged.write(name, after);
        CHECK_FALSE(judged.by_program().ok());
        const bool of_each_kind = !name.starts_with("tables/") || name.starts_with("tables/air");
        if (of_each_kind) CHECK(judged.by_script().code == 1);
        fs::remove(judged.path(name));
        CHECK_FALSE(judged.by_program().ok());
        if (of_each_kind) CHECK(judged.by_script().code == 1);
        judged.write(name, before);
    }
    CHECK(judged.by_program().ok());
}

TEST_CASE("a file that was added is named") {
    const Judged judged;
    judged.write("tables/more.csv", "entry\r\n");
    judged.both_find("tables/more.csv", "does not belong here");
}

TEST_CASE("who changes a file and its sum is found by the signature over the sums") {
    const Judged judged;
    const std::string rounds = judged.f.file("tables/rounds.csv");
    judged.write("tables/rounds.csv", replaced(rounds, "SW-14", "SW-15"));
    judged.sign_again(kiosk_key_of(Bytes(32, 6)).value());
    judged.both_find("SHA256SUMS", "is not signed with key.pem");
}

TEST_CASE("who puts another key in is found by the seals") {
    const Judged judged;
    const KioskKey other = kiosk_key_of(Bytes(32, 6)).value();
    judged.write("key.pem", public_key_pem(other.public_key));
    judged.sign_again(other);
    judged.both_find("seals/0000000009.json", "is not signed with key.pem");
}

TEST_CASE("the printed script has at most forty lines, and the paper names what works") {
    const Judged judged;
    const std::string script = printed_script(judged.f);
    CHECK(std::count(script.begin(), script.end(), '\n') <= 40);
    const std::string text = judged.f.file("HOW-TO-CHECK.md");
    CHECK(text.find("`papers/`") != text.npos);
    CHECK(text.find("binder check FOLDER --kiosk " + judged.f.key.kiosk_id() +
                    " --witness CODE@SIZE") != text.npos);
    CHECK(text.find("ledger check") == text.npos);
}

TEST_CASE("a binder is held against the number and the witness codes that stand on paper") {
    const Judged judged;
    const Bound& f = judged.f;
    const Hash root = f.ledger->root();
    const std::uint64_t size = f.ledger->size();
    const auto by = [&](const BinderNoted& noted) {
        return check_binder(f.out(), f.dir.string(), nullptr, noted);
    };
    const std::string early = witness_code(9, f.ledger->root_at(9).value());
    const BinderNoted right{f.key.kiosk_id(), {{early, 9}, {witness_code(size, root), size}}};
    CHECK(by(right).ok());
    const auto finds = [&](const BinderNoted& noted, const char* where, const char* what) {
        const auto found = by(noted);
        REQUIRE_FALSE(found.ok());
        CHECK(found.error().where == where);
        CHECK_MESSAGE(found.error().what.find(what) != std::string::npos, found.error().what);
    };
    finds({"0123456789abcdef", {}}, "key.pem", "the number that was noted is 0123456789abcdef");
    finds({"", {{witness_code(9, root), 9}}}, "entries.jsonl", "and the shift book has");
    finds({"", {{early, 10}}}, "entries.jsonl", "and the shift book has");
    finds({"", {{early, size + 1}}}, "entries.jsonl", "is of");
    finds({"", {{early, 0}}}, "entries.jsonl", "is of 0");
}

TEST_CASE("even with the kiosk's key, entries are held to what was sealed") {
    const Judged judged;
    const std::string lines = judged.f.file("entries.jsonl");
    const auto judge = [&](const std::string& changed, const std::string& what) {
        judged.write("entries.jsonl", changed);
        judged.sign_again(judged.f.key);
        judged.both_find("entries.jsonl", what);
    };
    judge(replaced(lines, "\"creeps\"", "\"holds\""), "are not those that the seal");
    const auto second = lines.find('\n') + 1;
    const auto third = lines.find('\n', second) + 1;
    judge(lines.substr(0, second) + lines.substr(third), "entry 2 is missing");
    judge(lines.substr(0, third) + lines.substr(second), "entry 3 is missing");
    judge(replaced(lines, "\"badge\"", " \"badge\""), "not in canonical form");
    judged.write("entries.jsonl", lines.substr(0, lines.rfind('\n', lines.size() - 2) + 1));
    judged.sign_again(judged.f.key);
    judged.both_find("seals", "the newest covers");
}

// The tree and every seal made anew over other entries, as whoever holds the key could.
void seal_again(const Judged& judged, const std::string& lines) {
    std::map<std::uint64_t, Hash> roots;
    Frontier tree;
    for (const auto& line : split(lines, '\n')) {
        if (line.empty()) continue;
        tree.append(leaf_hash(Bytes(line.begin(), line.end())));
        roots[tree.size()] = tree.root();
    }
    for (const auto& item : fs::directory_iterator(judged.path("seals"))) {
        const std::string name = "seals/" + item.path().filename().string();
        Seal seal = seal_from(trimmed(judged.f.file(name))).value();
        seal.root = roots.at(seal.size);
        const std::string text = signed_text(seal);
        seal.signature = sign(judged.f.key, Bytes(text.begin(), text.end()));
        judged.write(name, seal_body(seal) + "\n");
    }
    judged.write("entries.jsonl", lines);
    judged.sign_again(judged.f.key);
}

TEST_CASE("a signature that was moved to another record is found, even under new seals") {
    const Judged judged;
    const std::string lines = judged.f.file("entries.jsonl");
    seal_again(judged, lines);
    REQUIRE(judged.by_program().ok());
    // The evaluation gets the signature of the practice: the same person and meaning.
    std::string moved;
    nlohmann::json taken;
    for (const auto& line : split(lines, '\n')) {
        if (line.empty()) continue;
        Entry entry = entry_from(line).value();
        if (entry.kind == "practised") taken = entry.data.at("signature");
        if (entry.kind == "evaluated") entry.data["signature"] = taken;
        moved += entry_body(entry).value() + "\n";
    }
    REQUIRE(taken.contains("record"));
    seal_again(judged, moved);
    const auto found = judged.by_program();
    REQUIRE_FALSE(found.ok());
    CHECK(found.error().where == "entries.jsonl");
    CHECK(found.error().what == "the signature in entry 8 was made for another record");
}

TEST_CASE("an entry without a body is found, where none says that it was purged") {
    const Judged judged;
    std::string emptied;
    std::int64_t n = 0;
    for (const auto& line : split(judged.f.file("entries.jsonl"), '\n')) {
        if (line.empty()) continue;
        ++n;
        const bool gone = line.find("\"kind\":\"guide-read\"") != std::string::npos;
        const Hash leaf = leaf_hash(Bytes(line.begin(), line.end()));
        emptied += gone ? "{\"leaf\":\"" + hex(leaf) + "\",\"n\":" + std::to_string(n) + "}\n"
                        : line + "\n";
    }
    judged.write("entries.jsonl", emptied);
    judged.sign_again(judged.f.key);
    judged.both_find("entries.jsonl", "entry 5 has no body, and no entry says that it was purged");
}

TEST_CASE("a purged entry leaves its leaf, and a row that still names it is found") {
    Judged judged;
    const std::string guides = judged.f.file("tables/guides.csv");
    Bound& f = judged.f;
    f.book->seal_with(&f.sealer);
    PurgePlan plan;
    plan.as_of = f.zone.local(f.clock.now_ms()).date;
    plan.bodies.ranges = {{5, 5}};
    plan.bodies.classes = {{"training", 1}};
    REQUIRE(purge(*f.book, plan).ok());
    std::filesystem::remove_all(f.out());
    f.made();
    CHECK(judged.by_program().ok());
    CHECK(judged.by_program().value().purged == 1);
    const Ran script_found = judged.by_script();
    CHECK_MESSAGE(script_found.code == 0, script_found.said);
    judged.write("tables/guides.csv", guides);
    judged.sign_again(f.key);
    const auto found = judged.by_program();
    REQUIRE_FALSE(found.ok());
    CHECK(found.error().what == "a row names entry 5, which was purged");
    // What the purge says is signed by the kiosk: another stretch is not believed.
    std::filesystem::remove_all(f.out());
    f.made();
    judged.write("entries.jsonl", replaced(f.file("entries.jsonl"), "[[5,5]]", "[[4,5]]"));
    judged.sign_again(f.key);
    CHECK_FALSE(judged.by_program().ok());
    CHECK(judged.by_script().code == 1);
}

TEST_CASE("what was on the screen is what its name says, whoever signs the sums") {
    const Judged judged;
    std::filesystem::create_directory(judged.path("content"));
    const std::string name = "content/" + hex(sha256(std::string("{}"))) + ".json";
    judged.write(name, "{}");
    judged.sign_again(judged.f.key);
    CHECK(judged.by_program().ok());
    judged.write(name, "{\"words\":\"others\"}");
    judged.sign_again(judged.f.key);
    const auto found = judged.by_program();
    REQUIRE_FALSE(found.ok());
    CHECK(found.error().where == name);
}

TEST_CASE("a row that names an entry that is not there is found") {
    const Judged judged;
    for (const char* name : {"tables/guides.csv", "tables/guides.jsonl"}) {
        const std::string before = judged.f.file(name);
        const bool json = std::string(name).ends_with("l");
        judged.write(name, json ? replaced(before, "{\"entry\":5", "{\"entry\":500")
                                : replaced(before, "\n5,", "\n500,"));
        judged.sign_again(judged.f.key);
        const auto found = judged.by_program();
        REQUIRE_FALSE(found.ok());
        CHECK(found.error().where == name);
        CHECK(found.error().what == "a row names entry 500, which is not there");
        judged.write(name, before);
    }
}

TEST_CASE("a zip that was cut off, or that is none, is found") {
    Bound f;
    const std::string zip = (f.dir / "out.zip").string();
    REQUIRE(f.make({}, zip).ok());
    const std::string bytes = read_file(zip).value();
    for (const auto& broken : {bytes.substr(0, bytes.size() / 2), std::string("no zip"),
                               std::string()}) {
        REQUIRE(write_file(zip, broken).ok());
        const auto found = check_binder(zip, f.dir.string(), nullptr);
        REQUIRE_FALSE(found.ok());
        CHECK(found.error().kind == ErrorKind::damaged);
    }
    CHECK(check_binder(f.out(), f.dir.string(), nullptr).error().kind == ErrorKind::absent);
}
