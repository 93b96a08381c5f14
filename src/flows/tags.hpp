// The tag twin: a hold that sends a machine out of service issues a code; the tag with it hangs on
// the start control until the return to service, and whoever comes next is asked for it.
//
//   state      event      guard      next       entry
//   none       hold       -          issued     tag-issued           with the stop finding
//   issued     print      -          issued     tag-printed          it came out here
//   issued     put-up     -          up         tag-put-up
//   issued     withdraw   -          off        finding-withdrawn    the finding was a slip
//   up         print      -          up         tag-printed          once more
//   up         read       right      up         tag-read
//   up         read       wrong      issued     tag-read, finding-entered
//   up         return     -          off        returned-to-service  the tag is off
//   issued     return     -          off        returned-to-service
//
// A tag holds nobody: the hold does. It never stands on the path of a machine in service.
#pragma once

#include <array>

#include "flows/pieces.hpp"
#include "flows/table.hpp"
#include "records/works.hpp"

namespace holdpin {

enum class TagState { none, issued, up, off };
enum class TagEvent { hold, print, put_up, withdraw, read, give_back };
enum class TagGuard { always, right, wrong };
using TagRow = Row3<TagState, TagEvent, TagGuard>;

inline constexpr std::array kTagTable{
    TagRow{TagState::none, TagEvent::hold, TagGuard::always, TagState::issued, "tag-issued"},
    TagRow{TagState::issued, TagEvent::print, TagGuard::always, TagState::issued, "tag-printed"},
    TagRow{TagState::issued, TagEvent::put_up, TagGuard::always, TagState::up, "tag-put-up"},
    TagRow{TagState::issued, TagEvent::withdraw, TagGuard::always, TagState::off, "finding-withdrawn"},
    TagRow{TagState::up, TagEvent::print, TagGuard::always, TagState::up, "tag-printed"},
    TagRow{TagState::up, TagEvent::read, TagGuard::right, TagState::up, "tag-read"},
    TagRow{TagState::up, TagEvent::read, TagGuard::wrong, TagState::issued, "tag-read"},
    TagRow{TagState::up, TagEvent::give_back, TagGuard::always, TagState::off, "returned-to-service"},
    TagRow{TagState::issued, TagEvent::give_back, TagGuard::always, TagState::off, "returned-to-service"},
};

TagState state_of(const std::optional<Tag>& tag);

// Adds `tag-issued` to facts whose last one is a stop finding, unless the machine has a tag.
Result<void> add_tag(Session& session, const std::string& machine, std::vector<Fact>& facts);

// The tag in large, to be written off or printed, and fixed; `then` once it hangs there.
class TagFlow final : public Flow {
  public:
    TagFlow(std::string plate, Then then) : plate_(std::move(plate)), then_(std::move(then)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
    bool is_piece() const override { return true; }

  private:
    Result<Next> print(Session& session);

    std::string plate_;
    Then then_;
    std::string remark_;  // what became of printing
    bool failed_ = false;
};

// The tag of a machine that was just held, where it has one that is not up yet; it ends what was
// asked.
Result<Next> put_tag_on(Session& session, const std::string& plate);

// The row under which the tag of a machine out of service is looked at once more; none where the
// machine has no tag.
inline constexpr const char* kTagAgain = "tag-again";
Result<std::vector<Row>> tag_rows(const Session& session, const std::string& plate);
Result<Next> open_tag_again(Session& session, const std::string& plate);

// Asks the person signed on for the code on the machine.
std::unique_ptr<Flow> tag_question(const Session& session, const std::string& plate);

// Code of the tag that comes off when these findings are closed; empty: none, or another stop
// finding still needs it.
Result<std::string> tag_to_take_off(const Session& session, const std::string& plate,
                                    std::int64_t closed_finding);

}  // namespace holdpin
