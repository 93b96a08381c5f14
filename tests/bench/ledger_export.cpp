#include "ledger_export.hpp"

#include "binder/table_sinks.hpp"
#include "child.hpp"
#include "cli/binding.hpp"

namespace holdpin::bench {
namespace {

namespace fs = std::filesystem;

constexpr std::int64_t kExportedAt = 1795608300000;  // 2026-11-25T12:05:00Z

class Opened {
  public:
    explicit Opened(const std::string& data)
        : site_(need(open_site(data, resolved({}), clock_, random_, PinCost::least))) {}
    OpenSite& site() { return *site_; }

  private:
    HandClock clock_{kExportedAt};
    SeededRandom random_{7};
    std::unique_ptr<OpenSite> site_;
};

Child in_folder(const std::string& folder, const std::function<Child()>& work) {
    fs::create_directories(folder);
    const Child child = work();
    fs::remove_all(folder);
    return child;
}

// In megabytes; of the tables that the shell has, too.
double size_of(const std::string& folder) {
    double size = 0;
    for (const char* name : {"entries", "machines", "people", "readings", "releases", "rounds"}) {
        size += static_cast<double>(fs::file_size(folder + "/" + name + ".csv"));
    }
    return size / 1e6;
}

}  // namespace

int write_tables(const std::string& data, const std::string& out) {
    Opened opened(data);
    BinderFolder folder(out);
    Lookup lookup(*opened.site().db, opened.site().content);
    CsvTables csv(folder);
    const BinderScope everything;
    Tables tables(lookup, everything, {&csv});
    need(tables.begin());
    need(each_stored(*opened.site().db, [&](const StoredEntry& row) -> Result<void> {
        return tables.add(TRY(entry_of_trusted(row.body)));
    }));
    need(tables.finish());
    return 0;
}

int write_binder(const std::string& data, const std::string& out) {
    Opened opened(data);
    OpenSite& site = opened.site();
    const KioskKey key = need(load_kiosk_key(data + "/kiosk.key"));
    const BinderSources sources{*site.db, *site.ledger, site.content,    site.zone,
                                key,      kExportedAt,         binder_writers()};
    need(make_binder(sources, {}, out, nullptr));
    return 0;
}

void compare_binder(const std::string& tenth, const std::string& full, const std::string& out) {
    const auto made = [&](const std::string& data) {
        fs::remove_all(out);
        const Child child = run_child({"", "--binder", data, out});
        std::ptrdiff_t papers = 0;
        for (const auto& item : fs::directory_iterator(out + "/papers")) {
            papers += item.path().extension() == ".pdf" ? 1 : 0;
        }
        fmt::print("  binder: {:.0f} ms, {} kB at most, {} papers, {:.0f} ms a paper\n", child.ms,
                   child.memory_kb, papers, child.ms / static_cast<double>(papers));
        fs::remove_all(out);
        return child;
    };
    const Child small = made(tenth);
    const Child large = made(full);
    fmt::print("  ratio of its memory, all to a tenth: {:.2f}; of its time {:.2f}\n",
               static_cast<double>(large.memory_kb) / static_cast<double>(small.memory_kb),
               large.ms / small.ms);
}

void compare_export(const ExportPlaces& places) {
    const Child tenth = in_folder(places.out, [&] {
        return run_child({"", "--tables", places.tenth, places.out});
    });
    double shell_size = 0;
    const Child shell = in_folder(places.out, [&] {
        const Child child = run_child({"sqlite3", places.full + "/holdpin.db",
                                       ".cd " + places.out, ".read " HOLDPIN_DUMP_TABLES});
        shell_size = size_of(places.out);
        return child;
    });
    double our_size = 0;
    const Child ours = in_folder(places.out, [&] {
        const Child child = run_child({"", "--tables", places.full, places.out});
        our_size = size_of(places.out + "/tables");
        return child;
    });
    fmt::print("  CSV of all tables {:.0f} ms, {:.0f} MB\n", ours.ms, our_size);
    fmt::print("  sqlite3 shell {:.0f} ms, {:.0f} MB\n", shell.ms, shell_size);
    fmt::print("  ratio {:.2f} (1 or less is wanted)\n", ours.ms / shell.ms);
    fmt::print("  most memory of the CSV: of a tenth {} kB, of all {} kB\n", tenth.memory_kb,
               ours.memory_kb);
}

}  // namespace holdpin::bench
