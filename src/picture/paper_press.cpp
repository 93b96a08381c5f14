#include "picture/paper_press.hpp"

#include <cairo-pdf.h>

#include <algorithm>
#include <array>
#include <numeric>

#include "picture/chart.hpp"
#include "picture/qr.hpp"

namespace holdpin {
namespace {

constexpr double kMm = 72 / 25.4;
constexpr double kLeft = 20 * kMm;
constexpr double kTop = 18 * kMm;
constexpr double kWidth = 170 * kMm;
constexpr double kBottom = 274 * kMm;  // where the words end
constexpr double kFooter = 280 * kMm;
constexpr double kCellGap = 2 * kMm;
constexpr double kRowGap = 1.1 * kMm;
constexpr double kLabelPart = 0.33;
constexpr double kHeadingKeeps = 14 * kMm;  // of what follows it
constexpr double kChartUnit = 0.44;         // of a sketch pixel, in points
constexpr double kGreyWords = 0.25;
constexpr double kGreyLine = 0.6;

constexpr std::array<PaperType, 3> kHeadings{{{19, true, false}, {13, true, false},
                                              {10.5, true, false}}};
constexpr PaperType kBody{10, false, false};
constexpr PaperType kBold{10, true, false};
constexpr PaperType kSmall{8, false, false};

struct Size {
    double width = 0;
    double height = 0;
};
Size size_of(const PaperWords& words) {
    PangoRectangle logical;
    pango_layout_get_extents(words.get(), nullptr, &logical);
    return {static_cast<double>(logical.width) / PANGO_SCALE,
            static_cast<double>(logical.height) / PANGO_SCALE};
}

struct IteratorFree {
    void operator()(PangoLayoutIter* at) const { pango_layout_iter_free(at); }
};

void replace(std::string& text, std::string_view name, int value) {
    const auto at = text.find(name);
    if (at != text.npos) text.replace(at, name.size(), std::to_string(value));
}

}  // namespace

void PaperPress::write(const PaperWords& words, double x, double y, double grey) {
    if (!draws()) return;
    cairo_set_source_rgb(cairo_, grey, grey, grey);
    cairo_move_to(cairo_, x, y);
    pango_cairo_show_layout(cairo_, words.get());
    cairo_new_path(cairo_);
}

void PaperPress::lines(const PaperWords& words) {
    const std::unique_ptr<PangoLayoutIter, IteratorFree> at(
        pango_layout_get_iter(words.get()));
    do {
        PangoRectangle logical;
        pango_layout_iter_get_line_extents(at.get(), nullptr, &logical);
        const double height = static_cast<double>(logical.height) / PANGO_SCALE;
        need(height);
        const double down =
            static_cast<double>(pango_layout_iter_get_baseline(at.get()) - logical.y) / PANGO_SCALE;
        if (draws()) {
            cairo_set_source_rgb(cairo_, 0, 0, 0);
            cairo_move_to(cairo_, kLeft, y_ + down);
            pango_cairo_show_layout_line(cairo_, pango_layout_iter_get_line_readonly(at.get()));
            cairo_new_path(cairo_);
        }
        y_ += height;
    } while (pango_layout_iter_next_line(at.get()) != 0);
}

void PaperPress::rule(double y, double grey) {
    if (!draws()) return;
    cairo_set_source_rgb(cairo_, grey, grey, grey);
    cairo_set_line_width(cairo_, 0.5);
    cairo_move_to(cairo_, kLeft, y);
    cairo_line_to(cairo_, kLeft + kWidth, y);
    cairo_stroke(cairo_);
}

bool PaperPress::room_for(double height) const { return y_ + height <= kBottom; }

void PaperPress::need(double height) {
    if (room_for(height) || y_ == kTop) return;
    end_page();
    begin_page();
}

void PaperPress::begin_page() {
    ++page_;
    y_ = kTop;
}

void PaperPress::end_page() {
    if (!draws()) return;
    std::string count = part_->pages;
    replace(count, "{page}", page_);
    replace(count, "{pages}", pages_);
    const PaperWords right = words(count, kSmall, 0);
    const double width = size_of(right).width;
    rule(kFooter - 1.5 * kMm, kGreyLine);
    write(words(part_->footer, kSmall, kWidth - width - 6 * kMm), kLeft, kFooter, kGreyWords);
    write(right, kLeft + kWidth - width, kFooter, kGreyWords);
    cairo_show_page(cairo_);
}

Result<void> PaperPress::part(const PaperPart& part) {
    part_ = &part;
    begin_page();
    for (const PaperBlock& block : part.blocks) TRY(std::visit(*this, block));
    end_page();
    return {};
}

void PaperPress::into_outline(const PaperHeading& heading) {
    if (heading.level > 2 || !draws()) return;
    const int above = heading.level == 1 ? CAIRO_PDF_OUTLINE_ROOT : parent_;
    const std::string where =
        "page=" + std::to_string(page_) + " pos=[0 " + std::to_string(static_cast<int>(y_)) + "]";
    const int made = cairo_pdf_surface_add_outline(pdf_, above, heading.text.c_str(), where.c_str(),
                                                   CAIRO_PDF_OUTLINE_FLAG_OPEN);
    if (heading.level == 1) parent_ = made;
}

Result<void> PaperPress::operator()(const PaperHeading& block) {
    const auto index = static_cast<std::size_t>(std::clamp(block.level, 1, 3) - 1);
    const PaperWords made = words(block.text, kHeadings[index], kWidth);
    const double above = y_ == kTop ? 0 : kHeadings[index].points * 0.7;
    need(above + size_of(made).height + kHeadingKeeps);
    y_ += y_ == kTop ? 0 : above;
    into_outline(block);
    lines(made);
    y_ += kHeadings[index].points * 0.3;
    return {};
}

Result<void> PaperPress::operator()(const PaperParagraph& block) {
    const PaperType type = block.small ? kSmall : block.bold ? kBold : kBody;
    lines(words(block.text, type, kWidth));
    y_ += type.points * 0.4;
    return {};
}

double PaperPress::row_height(const std::vector<Cell>& cells) const {
    double height = 0;
    for (const Cell& cell : cells) {
        height = std::max(height, size_of(words(cell.text, cell.type, cell.width)).height);
    }
    return height + 2 * kRowGap;
}

void PaperPress::row(const std::vector<Cell>& cells, double grey) {
    const double height = row_height(cells);
    need(height);
    for (const Cell& cell : cells) {
        write(words(cell.text, cell.type, cell.width), cell.x, y_ + kRowGap);
    }
    y_ += height;
    rule(y_, grey);
}

Result<void> PaperPress::operator()(const PaperFields& block) {
    const double label = kWidth * kLabelPart;
    for (const PaperField& field : block.rows) {
        row({{field.label, kLeft, label - kCellGap, kBody},
             {field.value, kLeft + label, kWidth - label, kBold}},
            kGreyLine);
    }
    y_ += kRowGap;
    return {};
}

std::vector<PaperPress::Cell> PaperPress::cells_of(const PaperTable& table,
                                                   const std::vector<std::string>& texts,
                                                   bool bold) const {
    const double whole = std::accumulate(table.widths.begin(), table.widths.end(), 0.0);
    std::vector<Cell> cells;
    double x = kLeft;
    for (std::size_t i = 0; i < texts.size() && i < table.widths.size(); ++i) {
        const double width = kWidth * table.widths[i] / whole;
        cells.push_back({texts[i], x, width - kCellGap, {8.5, bold, false}});
        x += width;
    }
    return cells;
}

Result<void> PaperPress::operator()(const PaperTable& block) {
    const auto head = cells_of(block, block.header, true);
    const double head_height = row_height(head);
    need(head_height + kHeadingKeeps);
    row(head, 0);
    for (const auto& texts : block.rows) {
        const auto cells = cells_of(block, texts, false);
        if (!room_for(row_height(cells))) {
            need(row_height(cells));
            row(head, 0);
        }
        row(cells, kGreyLine);
    }
    y_ += kRowGap;
    return {};
}

void PaperPress::draw_qr(const QrCode& code, double size) {
    const double module = size / (code.width + 2 * kQrQuiet);
    cairo_set_source_rgb(cairo_, 0, 0, 0);
    // Without smoothing, or neighbours would show a light seam between them.
    cairo_set_antialias(cairo_, CAIRO_ANTIALIAS_NONE);
    for (int y = 0; y < code.width; ++y) {
        for (int x = 0; x < code.width; ++x) {
            if (!code.at(x, y)) continue;
            cairo_rectangle(cairo_, kLeft + (x + kQrQuiet) * module, y_ + (y + kQrQuiet) * module,
                            module, module);
        }
    }
    cairo_fill(cairo_);
    cairo_set_antialias(cairo_, CAIRO_ANTIALIAS_DEFAULT);
}

Result<void> PaperPress::operator()(const PaperQr& block) {
    const QrCode code = TRY(qr_code(block.text));
    const double size = block.size_mm * kMm;
    need(size);
    const double quiet = size / (code.width + 2 * kQrQuiet) * kQrQuiet;
    if (draws()) draw_qr(code, size);
    const double beside = size + 3 * kMm;
    const PaperWords caption = words(block.caption, kSmall, kWidth - beside);
    write(caption, kLeft + beside, y_ + quiet);
    y_ += std::max(size, size_of(caption).height + quiet);
    return {};
}

Result<void> PaperPress::operator()(const PaperChart& block) {
    const double height = block.height_mm * kMm;
    need(height);
    if (draws()) {
        cairo_save(cairo_);
        cairo_translate(cairo_, kLeft, y_);
        const auto drawn = draw_chart_on(cairo_, block.chart, {kWidth, height, kChartUnit, false});
        cairo_restore(cairo_);
        if (!drawn) return drawn.error();
    }
    y_ += height + 3 * kMm;
    return {};
}

Result<void> PaperPress::operator()(const PaperLarge& block) {
    // Capitals of B612 stand about 0.7 of the em; the ink is measured and the type made to fit.
    constexpr double kTryPoints = 100;
    const PaperType tried{kTryPoints, true, block.mono};
    PangoRectangle ink;
    pango_layout_get_extents(words("H", tried, 0).get(), &ink, nullptr);
    const double capitals = static_cast<double>(ink.height) / PANGO_SCALE / kTryPoints;
    const double room = block.band ? kWidth - 8 * kMm : kWidth;
    const double wide = size_of(words(block.text, tried, 0)).width / kTryPoints;
    const double points = std::min(block.capitals_mm * kMm / capitals, room / std::max(wide, 0.01));
    const PaperWords made = words(block.text, {points, true, block.mono}, 0);
    const double above = points * capitals * (block.band ? 0.45 : 0.25);
    const double height = points * capitals + 2 * above;
    need(height);
    if (block.band && draws()) {
        cairo_set_source_rgb(cairo_, 0, 0, 0);
        cairo_rectangle(cairo_, kLeft, y_, kWidth, height);
        cairo_fill(cairo_);
    }
    pango_layout_get_extents(words("H", {points, true, block.mono}, 0).get(), &ink, nullptr);
    const double x = kLeft + (kWidth - size_of(made).width) / 2;
    write(made, x, y_ + above - static_cast<double>(ink.y) / PANGO_SCALE, block.band ? 1 : 0);
    y_ += height + kRowGap;
    return {};
}

Result<void> PaperPress::operator()(const PaperHole& block) {
    const double radius = block.size_mm * kMm / 2;
    need(2 * radius);
    if (draws()) {
        cairo_set_source_rgb(cairo_, 0, 0, 0);
        cairo_set_line_width(cairo_, 1);
    }
    for (const double wider : {1.0, 1.8}) {
        if (!draws()) break;
        cairo_new_sub_path(cairo_);
        cairo_arc(cairo_, kLeft + kWidth / 2, y_ + 1.8 * radius, radius * wider, 0, 2 * 3.14159265);
        cairo_stroke(cairo_);
    }
    y_ += 3.6 * radius + 2 * kMm;
    return {};
}

Result<void> PaperPress::operator()(const PaperGap& block) {
    y_ += block.mm * kMm;
    return {};
}

}  // namespace holdpin
