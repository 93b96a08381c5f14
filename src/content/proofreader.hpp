// Proofreads a draft as a whole: what single readers cannot see. Cross references, pictures,
// rules for guides, quizzes, rounds, the hold table and the site.
// Guarantees: never stops at the first fault; says nothing twice that a reader has said (an empty
// id or text was reported when it was read). Changes nothing.
// The numbers H-05, H-10, H-14 and H-25 name the design rules that a check stands for.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "content/content.hpp"
#include "content/draft.hpp"

namespace holdpin {

// What the checks share: the draft, the drawings, and where faults go.
class Proof {
  public:
    Proof(const ContentDraft& draft, const Files& assets, Faults& faults)
        : draft_(draft), assets_(assets), faults_(faults) {}

    const Pack& pack() const { return draft_.content.pack; }
    const Site& site() const { return draft_.content.site; }
    const Places& places() const { return draft_.places; }

    void note(const Spot& at, std::string what, std::string mend);
    // `at` is the table that has the key; an empty id is passed over.
    void footing(const std::string& id, const Spot& at);
    void picture(const Picture& picture, const Spot& at);
    void drawing(const std::string& name, const Spot& at);
    void warnings(const std::vector<Warning>& warnings, const Spot& at);
    // Words that never stand on a screen, in every English text below `at`.
    void screen_words(const Spot& at);
    // The same placeholders in every language.
    void placeholders(const Text& text, const Spot& at, std::string_view name);
    // `id` is among `known`, or a fault that says what a `kind` of that name is missing.
    bool known(const std::string& id, const std::vector<std::string>& known, const Spot& at,
               std::string_view kind);
    // No id twice; `places[i]` is where ids[i] stands.
    void unique(const std::vector<std::string>& ids, const std::vector<Spot>& places,
                std::string_view kind);

  private:
    void part(const std::string& part, const Picture& picture, const std::string& svg,
              const Spot& at);

    const ContentDraft& draft_;
    const Files& assets_;
    Faults& faults_;
};

// The ids of a list of items.
template <typename Item, typename Member>
std::vector<std::string> ids_of(const std::vector<Item>& items, Member member) {
    std::vector<std::string> ids;
    for (const auto& item : items) ids.push_back(item.*member);
    return ids;
}
// The places of the tables under a key, in order.
std::vector<Spot> places_of(const Spot& at, std::string_view key, std::size_t count);

// The name of an asset in its folder, or empty: tiles first, then whole illustrations.
std::string drawing_file(const Files& assets, const std::string& name);
std::string illustration_file(const std::string& name);

void proof_rulesets(Proof& proof);
void proof_retention(Proof& proof);
void proof_classes(Proof& proof);
void proof_guides(Proof& proof);
void proof_quizzes(Proof& proof);
void proof_rounds(Proof& proof);
void proof_sheets(Proof& proof);
void proof_works(Proof& proof);
void proof_site(Proof& proof);
// Parts of proof_classes and proof_site: what the sums lean on. `at` is the table of the class.
void proof_figures(Proof& proof, const MachineClass& machine, const Spot& at);
void proof_site_air(Proof& proof);

// All of the pack; the site only where one was read.
void proofread(const ContentDraft& draft, const Files& assets, bool has_site, Faults& faults);

}  // namespace holdpin
