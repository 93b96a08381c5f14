// Stages for tests of the glass: they show the pages they are given and remember what was done.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "flows/page.hpp"

namespace holdpin::test {

class OnePage final : public Stage {
  public:
    explicit OnePage(Page page) : page_(std::move(page)) {}
    Page page() override { return page_; }
    void act(const Action& action) override { done.push_back(action); }

    // "next 1284.6", "floor", one a line; what the tests compare.
    std::string did() const {
        std::string all;
        for (const Action& action : done) {
            all += (all.empty() ? "" : "\n") + action.id;
            all += action.arg.empty() ? "" : " " + action.arg;
        }
        return all;
    }

    std::vector<Action> done;

  private:
    Page page_;
};

inline Page page_with(Body body) {
    Page page;
    page.id = "test";
    page.left = "Ash Lane";
    page.middle = "Early shift";
    page.right = "05:40";
    page.body = std::move(body);
    page.back = {"back", "Back", "", true, ""};
    page.help = {"help", "Problem or emergency", "", true, ""};
    page.main = {"next", "Next", "what follows", true, ""};
    return page;
}

inline Page list_page(int rows) {
    ListBody list;
    list.heading = "Which machine?";
    for (int i = 1; i <= rows; ++i) {
        Row row;
        row.id = "row-" + std::to_string(i);
        row.label = "Machine " + std::to_string(i);
        list.rows.push_back(row);
    }
    return page_with(list);
}

}  // namespace holdpin::test
