#include "cli/about_writer.hpp"

#include <algorithm>
#include <filesystem>

#include "base/text.hpp"
#include "binder/papers_about.hpp"
#include "ledger/sealer.hpp"

namespace holdpin {
namespace {

namespace fs = std::filesystem;

// "about-p-brandt-2026-11-25-054012.pdf": by the site's clock.
std::string name_of(const OpenSite& site, const Person& person) {
    std::string at = local_text(site.zone.local(site.clock.now_ms())).substr(0, 19);
    at[10] = '-';
    at.erase(std::remove(at.begin(), at.end(), ':'), at.end());
    return "about-" + person.id + "-" + at;
}

Result<std::string> free_path(const std::string& begins) {
    constexpr int kMost = 100;
    for (int i = 1; i <= kMost; ++i) {
        const std::string path = begins + (i == 1 ? "" : "-" + std::to_string(i)) + ".pdf";
        std::error_code ignored;
        if (!fs::exists(path, ignored)) return path;
    }
    return Error{ErrorKind::refused, "there are too many of these already", begins, ""};
}

}  // namespace

Result<std::string> about_pdf(OpenSite& site, const Person& person) {
    const BinderScope scope{std::nullopt, std::nullopt, person.id, ""};
    const BinderMaterial material{*site.db,  *site.ledger,       site.content,
                                  site.zone, site.sealer->key(), scope,
                                  site.clock.now_ms()};
    return paper_pdf(TRY(about_paper(material, person)));
}

Result<std::string> AboutWriter::print(const Person& person, const std::string& folder) {
    const auto allowed = places();
    const bool known = std::any_of(allowed.begin(), allowed.end(), [&](const BinderPlace& place) {
        return place.path == folder;
    });
    std::error_code ignored;
    if (!known || !fs::is_directory(folder, ignored)) {
        return Error{ErrorKind::absent, "this place is gone", folder, ""};
    }
    const auto pdf = about_pdf(site_, person);
    // Whatever it was: it was no fault of the place.
    if (!pdf) {
        return Error{ErrorKind::damaged, pdf.error().what, pdf.error().where, pdf.error().mend};
    }
    const std::string path = TRY(free_path(folder + "/" + name_of(site_, person)));
    constexpr int kOwnerOnly = 0600;
    const auto written = write_file(path, pdf.value(), kOwnerOnly);
    if (written.ok()) return path;
    fs::remove(path + ".part", ignored);
    return written.error();
}

}  // namespace holdpin
