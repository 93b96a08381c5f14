// What stands on the glass when the records cannot be opened: no machine, no sign-on, the reason,
// and the emergency sheets, which open whatever has happened. Enters nothing.
#pragma once

#include <string>

#include "base/result.hpp"
#include "flows/page.hpp"
#include "flows/say.hpp"

namespace holdpin {

class SheetsOnly final : public Stage {
  public:
    // `content` must outlive it.
    SheetsOnly(const Content& content, const Error& reason);
    Page page() override;
    void act(const Action& action) override;

  private:
    Page reason_page() const;
    Page list_page() const;
    Page sheet_page(const Sheet& sheet) const;

    const Content& content_;
    Error reason_;
    Say say_;
    bool list_ = false;
    std::string sheet_;  // empty: none is open
};

}  // namespace holdpin
