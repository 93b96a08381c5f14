// Files of a pack and a site, parsed and read into one draft. Holds the trees that the draft's
// places point into, so a shelf is neither copied nor moved.
#pragma once

#include <map>
#include <string>

#include "content/content.hpp"
#include "content/draft.hpp"

namespace holdpin {

class Shelf {
  public:
    Shelf() = default;
    Shelf(const Shelf&) = delete;
    Shelf& operator=(const Shelf&) = delete;

    // Files by name relative to the pack; those in sites/ and those that are no TOML are passed
    // over. The names are the ones that faults show.
    void add_pack(const Files& files);
    // `head` is the name of the file with the site's head among `files`.
    void add_site(const Files& files, const std::string& head);

    const ContentDraft& draft() const { return draft_; }
    ContentDraft& draft() { return draft_; }
    Faults& faults() { return faults_; }

  private:
    void add_pack_file(const std::string& name, const std::string& bytes);
    void add_item(const std::string& folder, const Spot& file);
    const Spot* parse(const std::string& name, const std::string& bytes);
    void check_name(const std::string& id, const Spot& file);

    struct Parsed {
        Node root;
        std::vector<Spot> spot;  // one; a spot has no empty state
    };
    std::map<std::string, Parsed> parsed_;
    ContentDraft draft_;
    Faults faults_;
};

}  // namespace holdpin
