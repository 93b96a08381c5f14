// The files of a binder by their name inside it, wherever they lie: what a check reads. A long file
// is read as a stream and a line at a time, and no line or text is taken in beyond a bound, so that
// no binder, however it was made, takes more memory than that.
#pragma once

#include <functional>
#include <istream>
#include <memory>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace holdpin {

struct BinderFiles {
    std::vector<std::string> names;  // of all that is there, folders apart
    // Null: there is no file of that name, or it is a link. A stream that is not good: unreadable.
    std::function<std::unique_ptr<std::istream>(const std::string& name)> open;
};

// Of a folder. Error: failed, where a folder in it cannot be listed.
Result<BinderFiles> files_in(const std::string& dir);

inline constexpr std::size_t kLongestLine = std::size_t{1} << 24;
inline constexpr std::size_t kLongestText = std::size_t{1} << 26;

// The next line without its line feed; false: there is none. Errors: damaged (longer than
// kLongestLine), failed (cannot be read).
Result<bool> next_line(std::istream& file, std::string& line);
// All that is left. Errors: damaged (longer than kLongestText), failed.
Result<std::string> whole_text(std::istream& file);

}  // namespace holdpin
