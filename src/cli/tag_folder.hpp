// Tags as files in a folder, one PDF for each code, and as paper where a printer's command is set:
// the command gets the file as its last word, and is run bounded and without a shell. A tag that is
// put out again takes the place of its file.
#pragma once

#include <string>
#include <vector>

#include "content_types/content.hpp"
#include "flows/tag_print.hpp"

namespace holdpin {

// In the data folder, where no other is set.
inline constexpr const char* kTagFolder = "tags";

class TagFolder final : public TagPrinter {
  public:
    struct Parts {
        std::string folder;
        std::vector<std::string> printer;  // "lp", "-d", "dock"; empty: none
        std::int64_t time_ms = 8'000;      // of the command
    };
    TagFolder(const Content& content, Parts parts) : content_(content), parts_(std::move(parts)) {}

    bool has_printer() const override { return !parts_.printer.empty(); }
    Result<TagOut> put_out(const TagCard& card) override;

  private:
    const Content& content_;
    Parts parts_;
};

// "SW-14-K4PX7H.pdf"; what cannot stand in a name of a file is a dash.
std::string tag_file_of(const TagCard& card);

}  // namespace holdpin
