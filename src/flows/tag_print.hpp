// What a tag says, in words, and where it is put out: by a printer or into a folder, which comes
// from outside. Whoever prints decides nothing: the tag hangs when somebody says so.
#pragma once

#include <cstdint>
#include <string>

#include "flows/session.hpp"
#include "rules/tags.hpp"

namespace holdpin {

struct TagCard {
    std::string machine;
    std::string code;
    std::string reason;          // in the language it is made for
    std::string reason_english;
    std::string date;
    std::string by;              // empty where nobody was signed on, or the site wants no names
    std::int64_t entry = 0;      // the finding
    std::int64_t issued_ms = 0;
};

struct TagOut {
    bool printed = false;  // a printer took it
    std::string file;      // its name in the folder of tags
};

class TagPrinter {
  public:
    virtual ~TagPrinter() = default;
    // False: what is put out lies in a folder, for somebody to print.
    virtual bool has_printer() const = 0;
    // Takes seconds at most. An error where it came out nowhere: then it is copied by hand.
    virtual Result<TagOut> put_out(const TagCard& card) = 0;
};

// In one language, whoever reads it: a printed tag is in that of the site.
Result<TagCard> tag_card(const Session& session, const Tag& tag, const std::string& language);

// Puts the tag out and enters that it was. What is to be said about it, in either case.
struct TagPrinted {
    bool out = false;
    std::string remark;
};
Result<TagPrinted> print_tag(Session& session, const Tag& tag);

}  // namespace holdpin
