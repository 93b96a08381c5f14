#include "content/content.hpp"

#include <algorithm>
#include <utility>

#include "base/text.hpp"
#include "content/digest.hpp"
#include "content/folder.hpp"
#include "content/proofreader.hpp"
#include "content/shelf.hpp"

namespace holdpin {
namespace {

struct SiteFiles {
    Files files;
    std::string head;
};

// Reads, proofreads, freezes. `site` is absent where only the pack is wanted.
Loaded load(const Files& pack, const Files& assets, const SiteFiles* site, Faults faults) {
    Shelf shelf;
    shelf.faults() = std::move(faults);
    shelf.add_pack(pack);
    if (site) shelf.add_site(site->files, site->head);
    proofread(shelf.draft(), assets, site != nullptr, shelf.faults());

    Loaded loaded;
    loaded.faults = std::move(shelf.faults());
    put_in_order(loaded.faults);
    // Nothing loads by halves.
    if (!loaded.ok()) return loaded;
    loaded.content = std::move(shelf.draft().content);
    loaded.frozen = frozen_pack(loaded.content.pack, assets);
    if (site) {
        loaded.frozen["site/" + loaded.content.site.id] = frozen_site(loaded.content.site);
    }
    loaded.content.pack.digests = digests_of(loaded.frozen);
    return loaded;
}

LoadedPack pack_of(Loaded loaded) {
    return {std::move(loaded.content.pack), std::move(loaded.frozen), std::move(loaded.faults)};
}

// A site on disk: names in faults are relative to the pack where the site lies in it.
SiteFiles site_at(const std::string& path, const std::string& pack_dir, Faults& faults) {
    const std::string shown = name_inside(path, pack_dir).value_or(path);
    if (!is_folder(path)) return {read_one(path, shown, faults), shown};
    Files files;
    for (auto& [name, bytes] : read_folder(path, ".toml", faults)) {
        // Only what lies beside site.toml; deeper folders are the author's own.
        if (name.find('/') == std::string::npos) files[shown + "/" + name] = std::move(bytes);
    }
    return {std::move(files), shown + "/site.toml"};
}

// The last `count` parts of a path.
std::string last_parts(const std::string& path, std::size_t count) {
    auto parts = split(path, '/');
    std::erase(parts, "");
    if (parts.size() > count) {
        parts.erase(parts.begin(), parts.end() - static_cast<std::ptrdiff_t>(count));
    }
    return joined(parts, "/");
}

bool is_under(const std::string& name, const std::string& folder) {
    return folder.empty() || folder == "." || name == folder || name.starts_with(folder + "/");
}

// One look at a pack with some files laid over it, and at sites.
struct Look {
    Files pack;
    Files assets;
    std::vector<SiteFiles> sites;
    Faults faults;  // of the disk

    Faults all() const {
        Faults found = load(pack, assets, nullptr, faults).faults;
        for (const auto& site : sites) {
            const Faults more = load(pack, assets, &site, {}).faults;
            found.insert(found.end(), more.begin(), more.end());
        }
        put_in_order(found);
        return found;
    }
};

bool has_fault(const Faults& faults, const Fault& fault) {
    return std::any_of(faults.begin(), faults.end(),
                       [&](const Fault& other) { return other.sentence() == fault.sentence(); });
}

bool is_site(const std::string& path) {
    return is_folder(path) ? has_file(path, "site.toml") : last_parts(path, 1) == "site.toml";
}

// Lays the named path over the look and returns the name under which its faults stand.
std::string lay_over(Look& look, const std::string& path, const std::string& pack_dir) {
    const auto inside = name_inside(path, pack_dir);
    if (is_site(path)) {
        look.sites.push_back(site_at(path, pack_dir, look.faults));
        return inside.value_or(path);
    }
    if (inside) return *inside;
    const bool is_whole_folder = is_folder(path);
    const std::string over = last_parts(path, is_whole_folder ? 1 : 2);
    Files files = is_whole_folder ? read_folder(path, ".toml", look.faults)
                                  : read_one(path, over, look.faults);
    for (auto& [name, bytes] : files) {
        look.pack[is_whole_folder ? over + "/" + name : name] = std::move(bytes);
    }
    return over;
}

}  // namespace

Loaded load_content(const Files& pack, const Files& assets, const Files& site) {
    const SiteFiles files{site, "site.toml"};
    return load(pack, assets, &files, {});
}

LoadedPack load_pack(const Files& pack, const Files& assets) {
    return pack_of(load(pack, assets, nullptr, {}));
}

Loaded load_content(const std::string& pack_dir, const std::string& assets_dir,
                    const std::string& site_path) {
    Faults faults;
    const Files pack = read_folder(pack_dir, ".toml", faults);
    const Files assets = read_folder(assets_dir, ".svg", faults);
    const SiteFiles site = site_at(site_path, pack_dir, faults);
    return load(pack, assets, &site, std::move(faults));
}

LoadedPack load_pack(const std::string& pack_dir, const std::string& assets_dir) {
    Faults faults;
    const Files pack = read_folder(pack_dir, ".toml", faults);
    const Files assets = read_folder(assets_dir, ".svg", faults);
    return pack_of(load(pack, assets, nullptr, std::move(faults)));
}

Faults proof(const std::vector<std::string>& paths, const std::string& pack_dir,
             const std::string& assets_dir) {
    Look look;
    look.pack = read_folder(pack_dir, ".toml", look.faults);
    look.assets = read_folder(assets_dir, ".svg", look.faults);
    if (paths.empty()) {
        for (const auto& site : sites_in(pack_dir)) {
            look.sites.push_back(site_at(site, pack_dir, look.faults));
        }
        return look.all();
    }
    const Faults before = look.all();
    std::vector<std::string> named;
    for (const auto& path : paths) named.push_back(lay_over(look, path, pack_dir));
    Faults found = look.all();
    std::erase_if(found, [&](const Fault& fault) {
        const bool is_named = std::any_of(named.begin(), named.end(), [&](const auto& name) {
            return is_under(fault.file, name);
        });
        return !is_named && has_fault(before, fault);
    });
    return found;
}

}  // namespace holdpin
