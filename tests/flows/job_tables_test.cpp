// The steps of each job, as the table at the top of its file shows them: the order that the engine
// keeps is the one that was written down, and no other.
#include <doctest/doctest.h>

#include <set>
#include <sstream>
#include <tuple>

#include "base/text.hpp"
#include "rules/guided_work.hpp"
#include "shop.hpp"

using namespace holdpin;

namespace {

using Steps = std::set<std::tuple<std::string, std::string, std::string>>;

// Rows under "step answer next" in the comment at the top of a job's file.
Steps written_down(const std::string& job) {
    const auto text =
        read_file(std::string(HOLDPIN_TEST_SOURCE_DIR) + "/content/works/" + job + ".toml");
    REQUIRE(text.ok());
    Steps steps;
    bool inside = false;
    for (const std::string& line : split(text.value(), '\n')) {
        if (!line.starts_with("#")) break;
        std::istringstream words(line.substr(1));
        std::string step;
        std::string answer;
        std::string next;
        words >> step >> answer >> next;
        if (inside && step.empty()) break;
        if (inside) steps.insert({step, answer, next});
        inside = inside || (step == "step" && answer == "answer" && next == "next");
    }
    return steps;
}

std::string word(const WorkMove& move) {
    switch (move.way) {
        case WorkWay::refused: break;
        case WorkWay::on: return move.next;
        case WorkWay::finish: return "end";
        case WorkWay::leave: return "leave";
        case WorkWay::stop: return "stop";
    }
    return "refused";
}

// What the engine does with every answer at every step.
Steps engine_keeps(const Work& work) {
    Steps steps;
    for (const WorkStep& step : work.steps) {
        for (const WorkStep& other : work.steps) {
            for (const WorkAnswer& answer : other.answers) {
                // After none, one and two leaks, with the hopper down and with it up.
                for (int i = 0; i < 6; ++i) {
                    const bool up = i >= 3;
                    if (step.with_raised_hopper && !up) continue;
                    const bool chosen = answer.id == kWorkChosen;
                    const WorkReply reply{other.id, answer.id, chosen ? "thing" : ""};
                    const WorkMove move =
                        move_after(work, step.id, reply, {true, i % 3, {"thing"}, up});
                    if (move.way == WorkWay::refused) continue;
                    CHECK(other.id == step.id);
                    steps.insert({step.id, answer.id, word(move)});
                }
            }
        }
    }
    return steps;
}

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("the table at the top of a job's file is the order that the engine keeps") {
        const Shop shop;
        CHECK(shop.site->content.pack.works.size() == 3);
        for (const Work& work : shop.site->content.pack.works) {
            CAPTURE(work.id);
            const Steps shown = written_down(work.id);
            const Steps kept = engine_keeps(work);
            CHECK(shown.size() >= work.steps.size());
            for (const auto& [step, answer, next] : kept) {
                INFO("kept: " << step << " " << answer << " " << next);
                CHECK(shown.contains({step, answer, next}));
            }
            for (const auto& [step, answer, next] : shown) {
                INFO("shown: " << step << " " << answer << " " << next);
                CHECK(kept.contains({step, answer, next}));
            }
        }
    }
}
