// Tags put out: a file for each code, and the printer's command with that file as its last word.
#include "cli/tag_folder.hpp"

#include <doctest/doctest.h>
#include <sys/stat.h>

#include "base/text.hpp"
#include "cli/paths.hpp"
#include "content/content.hpp"
#include "support/temp_dir.hpp"

using namespace holdpin;

namespace {

const Content& content() {
    static const Loaded loaded = [] {
        const ContentDirs dirs = resolved({});
        return load_content(dirs.content, dirs.assets, dirs.content + "/sites/example");
    }();
    return loaded.content;
}

TagCard card() {
    return {"SW-14",  "K4PX7H", "Smell of gas", "Smell of gas", "25 Nov 2026, 05:40",
            "A. Doe", 512,      1795608300000};
}

// A printer of our own: it keeps what it was given.
std::string fake_printer(const TempDir& dir, const std::string& does) {
    REQUIRE(write_file(dir / "print", "#!/bin/sh\n" + does + "\n").ok());
    REQUIRE(::chmod((dir / "print").c_str(), 0700) == 0);
    return dir / "print";
}

}  // namespace

TEST_CASE("without a printer a tag is a PDF in the folder, and once more in the same place") {
    const TempDir dir;
    TagFolder tags(content(), {dir / "tags", {}});
    CHECK_FALSE(tags.has_printer());
    const auto out = tags.put_out(card());
    REQUIRE_MESSAGE(out.ok(), (out.ok() ? "" : out.error().sentence()));
    CHECK_FALSE(out.value().printed);
    CHECK(out.value().file == "SW-14-K4PX7H.pdf");
    CHECK(read_file(dir / "tags/SW-14-K4PX7H.pdf").value().starts_with("%PDF-"));
    CHECK(tags.put_out(card()).ok());
}

TEST_CASE("the printer's command gets its words and the file, without a shell") {
    const TempDir dir;
    const std::string printer = fake_printer(dir, "cp \"$3\" \"$(dirname \"$0\")/paper-$2\"");
    TagFolder tags(content(), {dir / "tags", {printer, "-d", "$(dock)"}});
    const auto out = tags.put_out(card());
    REQUIRE(out.ok());
    CHECK(out.value().printed);
    CHECK(read_file(dir / "paper-$(dock)").value().starts_with("%PDF-"));
}

TEST_CASE("a printer that fails or hangs leaves the file, and a folder that is none is an error") {
    const TempDir dir;
    for (const char* does : {"exit 1", "sleep 60"}) {
        TagFolder tags(content(), {dir / "tags", {fake_printer(dir, does)}, 300});
        const auto out = tags.put_out(card());
        REQUIRE(out.ok());
        CHECK_FALSE(out.value().printed);
        CHECK(read_file(dir / "tags/SW-14-K4PX7H.pdf").ok());
    }
    REQUIRE(write_file(dir / "taken", "x").ok());
    CHECK_FALSE(TagFolder(content(), {dir / "taken", {}}).put_out(card()).ok());
}

TEST_CASE("the name of a tag's file stays in its folder") {
    TagCard odd = card();
    odd.machine = "../ü /A";
    CHECK(tag_file_of(odd).find('/') == std::string::npos);
    CHECK(tag_file_of(odd).ends_with("-K4PX7H.pdf"));
}
