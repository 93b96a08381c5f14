// The audit summary: what was recorded in a period in numbers and curves by weeks: rounds, findings
// opened, closed and open, days until they were closed, evaluations in date. Counts of things and
// never of people's speed or their findings: who reports does well.
#pragma once

#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "binder/papers_voice.hpp"
#include "ledger/seal.hpp"

namespace holdpin {

// One pass over the entries fills it.
class SummaryCounts {
  public:
    explicit SummaryCounts(const Pack& pack) : pack_(pack) {}
    // `counted`: whether the entry lies in the period; others still open or close findings.
    void add(const Entry& entry, bool counted);

    struct Week {
        int rounds = 0;
        int releases = 0;
        int opened = 0;
        int closed = 0;
        int open = 0;              // at its end
        std::vector<int> days;     // that those closed in it were open
        int in_date = 0;           // evaluations, at its end
        int out_of_date = 0;
    };
    // Without gaps, from the first week that counts to the last.
    std::vector<Week> weeks() const;
    std::int64_t first_week() const { return first_week_; }  // number of its Monday
    int of_kind(const std::string& kind) const;
    std::int64_t last_ms() const { return last_ms_; }

  private:
    void count_currency(std::vector<Week>& weeks) const;
    const Pack& pack_;
    std::int64_t first_week_ = 0;
    std::int64_t last_week_ = -1;
    std::int64_t last_ms_ = 0;
    std::map<std::int64_t, Week> counts_;
    std::map<std::string, int> kinds_;
    std::map<std::int64_t, std::int64_t> opened_;         // finding -> day
    std::map<std::int64_t, std::int64_t> closed_;         // finding -> day
    // person, class, topic -> days on which an evaluation was passed
    std::map<std::tuple<std::string, std::string, std::string>, std::set<std::int64_t>> evaluated_;
};

// Empty where there is nothing in the period.
Result<Paper> summary_paper(const BinderMaterial& material, const NameHashes& names,
                            const SummaryCounts& counts, const std::optional<Seal>& seal);

}  // namespace holdpin
