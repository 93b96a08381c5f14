#include "cli/about_writer.hpp"

#include <doctest/doctest.h>

#include <filesystem>

#include "base/new_dir.hpp"
#include "cli/binder_worker.hpp"
#include "example_site.hpp"
#include "records/records.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

struct WriterBench {
    HandClock clock{1795608300000};
    SeededRandom random{7};
    std::unique_ptr<OpenSite> site;
    NewDir folder = NewDir::beside((fs::temp_directory_path() / "holdpin-own").string()).value();
    std::unique_ptr<BinderWorker> binders;
    std::unique_ptr<AboutWriter> writer;
    Person person;

    WriterBench() {
        const ContentDirs dirs = resolved({});
        Loaded loaded = load_content(dirs.content, dirs.assets, dirs.content + "/sites/example");
        REQUIRE(loaded.ok());
        auto opened = in_memory_site(std::move(loaded), clock, random);
        REQUIRE(opened.ok());
        site = std::move(opened).value();
        binders = std::make_unique<BinderWorker>(
            *site, BinderWorkerOptions{{folder.path(), folder.path() + "/none"}, false, 0,
                                       make_binder});
        writer = std::make_unique<AboutWriter>(*site, *binders);
        person = *person_with(*site->db, "p-okafor-lind").value();
    }
};

}  // namespace

TEST_CASE("one's own document is whole, its owner's alone, and takes no other's place") {
    WriterBench bench;
    const auto first = bench.writer->print(bench.person, bench.folder.path());
    REQUIRE_MESSAGE(first.ok(), first.error().sentence());
    CHECK(first.value().ends_with("/about-p-okafor-lind-2026-11-25-060500.pdf"));
    CHECK(read_file(first.value()).value().starts_with("%PDF-"));
    CHECK((fs::status(first.value()).permissions() & fs::perms::others_all) == fs::perms::none);
    const auto second = bench.writer->print(bench.person, bench.folder.path());
    REQUIRE(second.ok());
    CHECK(second.value().ends_with("-060500-2.pdf"));
}

TEST_CASE("one's own document goes to no folder that is not offered, nor to one that is gone") {
    WriterBench bench;
    for (const std::string& folder : {std::string("/tmp"), bench.folder.path() + "/none"}) {
        const auto printed = bench.writer->print(bench.person, folder);
        REQUIRE_FALSE(printed.ok());
        CHECK(printed.error().kind == ErrorKind::absent);
    }
}
