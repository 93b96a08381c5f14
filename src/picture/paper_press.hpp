// Puts the blocks of a paper on the pages of one PDF surface, from top to bottom; or, without a
// surface, only measures on how many pages they would come. Only for the files of the paper.
#pragma once

#include <cairo.h>

#include <memory>
#include <string>
#include <vector>

#include "picture/cairo_handles.hpp"
#include "picture/paper.hpp"
#include "picture/type_setter.hpp"

namespace holdpin {

struct QrCode;

class PaperPress {
  public:
    // `cairo`: on `pdf`; both null: nothing is drawn. `pages`: how many there will be, for the
    // footers.
    PaperPress(TypeSetter& setter, cairo_surface_t* pdf, cairo_t* cairo, int pages)
        : setter_(setter), pdf_(pdf), cairo_(cairo), pages_(pages) {}

    Result<void> part(const PaperPart& part);
    int page() const { return page_; }

    Result<void> operator()(const PaperHeading& block);
    Result<void> operator()(const PaperParagraph& block);
    Result<void> operator()(const PaperFields& block);
    Result<void> operator()(const PaperTable& block);
    Result<void> operator()(const PaperQr& block);
    Result<void> operator()(const PaperChart& block);
    Result<void> operator()(const PaperLarge& block);
    Result<void> operator()(const PaperHole& block);
    Result<void> operator()(const PaperGap& block);

  private:
    struct Cell {
        std::string text;
        double x = 0;
        double width = 0;
        PaperType type;
    };
    PaperWords words(const std::string& text, const PaperType& type, double width) const {
        return setter_.set(text, type, width, part_->language);
    }
    bool draws() const { return cairo_ != nullptr; }
    void write(const PaperWords& words, double x, double y, double grey = 0);
    void lines(const PaperWords& words);  // may go on to the next page between two lines
    double row_height(const std::vector<Cell>& cells) const;
    void row(const std::vector<Cell>& cells, double grey);
    std::vector<Cell> cells_of(const PaperTable& table, const std::vector<std::string>& texts,
                               bool bold) const;
    void rule(double y, double grey);
    bool room_for(double height) const;
    void need(double height);  // goes on to the next page where there is less room
    void begin_page();
    void end_page();
    void into_outline(const PaperHeading& heading);

    void draw_qr(const QrCode& code, double size);

    TypeSetter& setter_;
    cairo_surface_t* pdf_;
    cairo_t* cairo_;
    int pages_;
    int page_ = 0;
    double y_ = 0;
    const PaperPart* part_ = nullptr;
    int parent_ = 0;  // entry of the outline that is open
};

}  // namespace holdpin
