// Safety data sheets as files in a folder: PDF, drawn page by page by poppler's programs; JPEG,
// unpacked by libjpeg-turbo's; each run bounded and apart; and PNG, shown as they are. Only regular
// files that stand in the folder itself are opened, and only by the name they were listed under.
#pragma once

#include <string>
#include <vector>

#include "flows/data_sheets.hpp"

namespace holdpin {

// In the data folder, and beside the site.toml that a site is set up from.
inline constexpr const char* kSheetFolder = "sds";

struct SheetPrograms {
    std::string draw = "pdftocairo";
    std::string info = "pdfinfo";
    std::int64_t time_ms = 4'000;  // of each
    std::string unpack = "djpeg";
};

class SheetFolder final : public DataSheets {
  public:
    explicit SheetFolder(std::string folder, SheetPrograms programs = {})
        : folder_(std::move(folder)), programs_(std::move(programs)) {}
    ~SheetFolder() override;
    SheetFolder(const SheetFolder&) = delete;
    SheetFolder& operator=(const SheetFolder&) = delete;

    std::vector<DataSheet> list() const override;
    Result<DrawnSheet> draw(const std::string& id, int page) override;

  private:
    Result<void> make_place();
    Result<int> pages_of(const std::string& path) const;
    void drop_drawn();
    Result<DrawnSheet> unpack_jpeg(const std::string& path);
    Result<DrawnSheet> draw_pdf(const std::string& path, int page);

    std::string folder_;
    SheetPrograms programs_;
    std::string place_;  // for drawn pages, readable by its owner alone; empty: not made yet
    std::string drawn_;  // the page that was drawn last
    int count_ = 0;
};

// Copies the sheets that lie beside a site's TOML into a new data folder, which then has a folder
// for them in any case.
Result<void> copy_sheets(const std::string& site_path, const std::string& data_dir);

// "floor-cleaner_FC20.es.pdf" is "floor-cleaner FC20" in Spanish. What cannot be shown is a "?".
DataSheet data_sheet_of(const std::string& file);

}  // namespace holdpin
