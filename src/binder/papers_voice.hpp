// What every printed document has in common: the words of its language, dates and times as the site
// writes them, names out of the private table, the lines of a signature. A name that was erased
// becomes the words that say so. Reads only.
#pragma once

#include <initializer_list>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base_json/values.hpp"
#include "binder/binder.hpp"
#include "picture/paper.hpp"

namespace holdpin {

// The language in which the signer read what was signed; empty: unsigned.
std::string language_of(const Entry& entry);

// Which hash stands for whose name: that of the last enrolment.
using NameHashes = std::map<std::string, std::string>;

class PaperVoice {
  public:
    PaperVoice(const BinderMaterial& material, const NameHashes& names, std::string language)
        : material_(material), names_(names), language_(std::move(language)) {}

    const BinderMaterial& material() const { return material_; }
    const Pack& pack() const { return material_.content.pack; }
    const std::string& language() const { return language_; }

    using Args = std::initializer_list<std::pair<std::string_view, std::string>>;
    std::string say(std::string_view key, Args args = {}) const;
    std::string say(const Text& text) const { return text.in(language_); }
    // The text of `head` + `word`, or the word itself where there is none.
    std::string word(std::string_view head, const std::string& word) const;
    std::string footing(std::string_view id, bool is_truck) const;

    std::string date(Date date) const;              // "25 Nov 2026"
    std::string date(const std::string& iso) const;  // the same; empty: a dash
    std::string when(std::int64_t ms) const;        // "25 Nov 2026, 05:40"; 0: a dash
    // The same as the site's clock showed when the entry was made: of the entry, or of an instant
    // just before it.
    std::string when(const Entry& entry) const { return when(entry, entry.at_ms); }
    std::string when(const Entry& entry, std::int64_t ms) const;
    std::string utc(std::int64_t ms) const;         // "2026-11-25 11:40:12 UTC"
    std::string site() const { return say(material_.content.site.name); }
    // As the site's file names it, else the site.
    std::string employer() const;
    std::string class_name(const std::string& id) const;
    std::string topic_name(const std::string& machine_class, const std::string& id) const;

    // Words behind a hash; those that were erased, and no hash at all.
    Result<std::string> hidden(const std::string& hash) const;
    Result<bool> knows(const std::string& person) const;  // the name is there and not erased
    Result<std::string> name(const std::string& person) const;  // "Ann Doe (p-ann)"
    Result<std::string> names(const std::vector<std::string>& people) const;
    // Who did it, by the name in the signature where there is one; `signers`: all of them.
    Result<std::string> signer(const Entry& entry) const;
    Result<std::string> signers(const Entry& entry) const;

    // Who does not agree with the entry, under which number and in which words; a line each.
    Result<std::string> disputes(const Entry& entry) const;
    // Who signed under which meaning and when, in UTC and local time, what the record is, and who
    // disputes it.
    Result<std::vector<PaperBlock>> signature(const Entry& entry) const;
    // An empty part of this language with its footer.
    PaperPart part(const std::string& title) const;

  private:
    std::string at_clock(const LocalTime& local) const;
    Result<std::string> signed_name(const Entry& entry, std::size_t place) const;
    const BinderMaterial& material_;
    const NameHashes& names_;
    std::string language_;
};

// The language of the record and English; one where they are the same.
std::vector<std::string> paper_languages(const std::string& of_record);

}  // namespace holdpin
