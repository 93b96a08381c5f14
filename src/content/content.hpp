// Loading of content: reads a whole tree, proofreads it as a whole and reports every fault.
// Guarantees: with one fault nothing is loaded; the same files give the same content, the same
// frozen bytes and the same digests, in whatever order a disk lists them.
// Does not: watch for changes, write anything, or decide what a content means (rules/).
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "content/fault.hpp"
#include "content_types/content.hpp"

namespace holdpin {

// Files by their name relative to a folder, with "/" between parts: "rounds/x.toml" -> bytes.
using Files = std::map<std::string, std::string>;

// Canonical bytes (RFC 8785) of every item by "kind/id": class, guide, quiz, round, sheet,
// strings/all, ruleset/footings, ruleset/holds, ruleset/duties,
// ruleset/retention, site. The digest of an item is
// the SHA-256 of these bytes. A site's bytes hold no name, badge, extension or PIN of anybody,
// so that they can be kept for good.
using FrozenItems = std::map<std::string, std::string>;

struct LoadedPack {
    Pack pack;  // meaningful only if `faults` is empty
    FrozenItems frozen;
    Faults faults;
    bool ok() const { return faults.empty(); }
};

struct Loaded {
    Content content;  // meaningful only if `faults` is empty
    FrozenItems frozen;
    Faults faults;
    bool ok() const { return faults.empty(); }
};

// `pack_dir` is the folder with rounds/, guides/ and so on; `assets_dir` the one with
// illustrations/. `site_path` is a site's folder (site.toml and what lies beside it) or its file.
Loaded load_content(const std::string& pack_dir, const std::string& assets_dir,
                    const std::string& site_path);
LoadedPack load_pack(const std::string& pack_dir, const std::string& assets_dir);

// The same from files in memory. Names in `site` are "site.toml" and its neighbours.
Loaded load_content(const Files& pack, const Files& assets, const Files& site);
LoadedPack load_pack(const Files& pack, const Files& assets);

// Faults of some files or folders, for an author. A path in `pack_dir` is proofread in its place;
// a path elsewhere is laid over the pack by its folder and name ("rounds/x.toml"), or is a site.
// Also reported are faults that a file laid over causes in others. No path: pack and its sites.
Faults proof(const std::vector<std::string>& paths, const std::string& pack_dir,
             const std::string& assets_dir);

// Frozen bytes back into typed items, for showing what was once signed. Error: damaged.
Result<Round> thawed_round(std::string_view frozen);
Result<Guide> thawed_guide(std::string_view frozen);
Result<Quiz> thawed_quiz(std::string_view frozen);
Result<Sheet> thawed_sheet(std::string_view frozen);

}  // namespace holdpin
