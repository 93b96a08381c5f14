// What there is to print, found in one pass over the entries in order. Long records are kept by
// their number and read again when they are printed.
#pragma once

#include <map>
#include <string>
#include <tuple>
#include <vector>

#include "binder/papers_certificate.hpp"
#include "binder/papers_holds.hpp"
#include "binder/papers_rounds.hpp"
#include "binder/papers_summary.hpp"

namespace holdpin {

class PapersPile {
  public:
    explicit PapersPile(const BinderMaterial& material)
        : material_(material), counts(material.content.pack) {}
    void add(const Entry& entry);

  private:
    void add_training(const Entry& entry);
    void add_round(const Entry& entry);
    void add_finding(const Entry& entry);
    const BinderMaterial& material_;
    // person, topic; whatever the class, as the present state counts them
    std::map<std::pair<std::string, std::string>, TopicTraining> training_;
    // finding -> its chain within `findings`
    std::map<std::int64_t, std::vector<std::int64_t>*> chains_;

  public:
    NameHashes names;
    std::vector<CertificateFacts> certificates;
    std::map<std::string, RoundMonth> rounds;  // by "SW-14-2026-11"
    std::map<std::string, FindingYear> findings;  // by "SW-14-2026"
    std::vector<Entry> inspections;
    SummaryCounts counts;
};

}  // namespace holdpin
