// Safety data sheets: files that the site has put beside its data, found by the name of the product
// and read page by page. Open to everybody, signed on or not. They are others' words: nothing in
// them is checked here. Looking at one enters nothing.
#pragma once

#include <string>
#include <vector>

#include "flows/session.hpp"

namespace holdpin {

struct DataSheet {
    std::string id;        // the file's name
    std::string name;      // of the product, as it can be shown
    std::string language;  // "en"; empty: not said
    std::string kind = {};  // "floor cleaner"; empty: not said
};
struct DrawnSheet {
    std::string png;  // path of the picture of one page
    int width = 0;
    int height = 0;
    int page = 1;
    int pages = 1;
};

// Where the files are and what draws them: comes from outside.
class DataSheets {
  public:
    virtual ~DataSheets() = default;
    // By name. A folder that is not there is an empty one.
    virtual std::vector<DataSheet> list() const = 0;
    // Draws a page, counted from 1, into a file that stays until the next one is drawn. Takes
    // seconds at most. An error where the file cannot be drawn; `page` beyond the end: the last.
    virtual Result<DrawnSheet> draw(const std::string& id, int page) = 0;
};

inline constexpr std::string_view kDataSheets = "data-sheets";  // the tile's action
inline constexpr std::string_view kDataSheet = "data-sheet:";   // a row's action, with the id

// What the pages are made of, also where the records are closed and there is no session.
Tile data_sheets_tile(const Say& say);
ListBody data_sheets_body(const Say& say, const Site& site, const std::vector<DataSheet>& sheets,
                          const std::string& wanted = "");
Page data_sheet_page(const Say& say, const Site& site, const DataSheet& sheet,
                     const DrawnSheet& drawn);
MessageBody undrawn_body(const Say& say, const Site& site, const std::string& name);

// Those in the reader's language where there are two of a product; with words given, only those in
// whose name or kind each of them stands, whatever its capitals and accents.
std::vector<DataSheet> sheets_for(const std::vector<DataSheet>& all, const std::string& language,
                                  const std::string& wanted);

class DataSheetsFlow final : public Flow {
  public:
    explicit DataSheetsFlow(std::string wanted = "") : wanted_(std::move(wanted)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    std::string wanted_;
};

class DataSheetFlow final : public Flow {
  public:
    DataSheetFlow(DataSheet sheet, DrawnSheet drawn)
        : sheet_(std::move(sheet)), drawn_(std::move(drawn)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    DataSheet sheet_;
    DrawnSheet drawn_;
};

}  // namespace holdpin
