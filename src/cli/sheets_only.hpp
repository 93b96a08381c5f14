// What stands on the glass while the records are not open: no machine, no sign-on, the reason, and
// the emergency sheets and safety data sheets, which open whatever has happened. Enters nothing.
#pragma once

#include <optional>
#include <string>

#include "base/result.hpp"
#include "flows/data_sheets.hpp"
#include "flows/page.hpp"
#include "flows/say.hpp"

namespace holdpin {

class SheetsOnly final : public Stage {
  public:
    // Why the records cannot be opened; none: they are being looked at, and will be open soon.
    // `content` must outlive it, and `data_sheets` too; null: there are none.
    SheetsOnly(const Content& content, std::optional<Error> reason,
               DataSheets* data_sheets = nullptr);
    // Nobody is reading a sheet.
    bool is_at_first_page() const { return !list_ && !data_ && sheet_.empty(); }
    Page page() override;
    void act(const Action& action) override;

  private:
    Say say() const { return {content_.pack, language_}; }
    MessageBody opening_body() const;
    MessageBody closed_body(const Error& reason) const;
    Page reason_page() const;
    Page list_page() const;
    Page sheet_page(const Sheet& sheet) const;
    Page data_page() const;
    void act_on_data(const Action& action);

    const Content& content_;
    std::optional<Error> reason_;
    std::string language_;
    DataSheets* data_sheets_;
    bool list_ = false;
    std::string sheet_;  // empty: none is open
    bool data_ = false;  // among the safety data sheets
    std::optional<DataSheet> data_sheet_;  // the one that is open
    std::optional<DrawnSheet> drawn_;      // absent with one open: it cannot be drawn
};

}  // namespace holdpin
