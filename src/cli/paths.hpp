// Where things lie when nobody says otherwise.
#pragma once

#include <string>

namespace holdpin {

// "holdpin" in the folder for data of the XDG base directories.
std::string default_data_dir();
// "holdpin/seals" in the folder for state: where copies of seals lie, away from the data.
std::string default_seal_copies();
// Beside it: what is needed when the data folder is gone does not stand in it.
std::string default_backups();
// The file of one kiosk in such a folder; empty where there is to be none.
std::string seal_copy_path(const std::string& folder, const std::string& kiosk_id);
// Beside an installed program (../share/holdpin), else in the source tree it was built from.
std::string default_content_dir();
std::string default_assets_dir();

// Content and drawings to use instead of the defaults; empty: the defaults.
struct ContentDirs {
    std::string content;
    std::string assets;
};
// For a program without a data directory, or with one: a pack that `adopt` took over comes before
// the program's own, and what was asked for comes before both.
ContentDirs resolved(const ContentDirs& asked, const std::string& data_dir = "");

}  // namespace holdpin
