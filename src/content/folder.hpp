// Reads folders of content from disk into memory, with bounds. Does not follow links out of the
// folder, nor look into hidden files.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "content/content.hpp"

namespace holdpin {

inline constexpr std::size_t kFilesMax = 2000;

bool is_folder(const std::string& path);
bool has_file(const std::string& folder, const std::string& name);
// The name of a path relative to a folder; nothing where it lies elsewhere.
std::optional<std::string> name_inside(const std::string& path, const std::string& folder);

// Every file below with that ending, by its relative name.
Files read_folder(const std::string& path, std::string_view ending, Faults& faults);
// One file under the name `shown`.
Files read_one(const std::string& path, const std::string& shown, Faults& faults);
// The folders of the sites that a pack brings along.
std::vector<std::string> sites_in(const std::string& pack_dir);

}  // namespace holdpin
