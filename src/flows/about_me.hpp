// "What this kiosk stores about me": for anybody signed on, about nobody else. Counts for each
// class of records with how long, why and who sees them; each record in plain words; and a note of
// disagreement, which is added to a record and takes nothing away.
#pragma once

#include <vector>

#include "flows/session.hpp"
#include "records/retention.hpp"

namespace holdpin {

class AboutMeFlow final : public Flow {
  public:
    static Result<std::unique_ptr<Flow>> open(const Session& session);
    explicit AboutMeFlow(std::vector<RecordAbout> records) : records_(std::move(records)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    std::vector<RecordAbout> records_;  // as of opening
};

// "Does not agree: …" for each note about an entry; rows to read.
Result<std::vector<Row>> disagreement_rows(const Session& session, std::int64_t entry);
// The same for all notes of a person, each with the entry it is about.
Result<std::vector<Row>> disagreement_rows(const Session& session, const std::string& person);

}  // namespace holdpin
