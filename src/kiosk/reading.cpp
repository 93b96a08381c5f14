// Widgets that are only read: warnings, the picture in its panel, the row of progress.

#include <algorithm>

#include "kiosk/widgets.hpp"

namespace holdpin {

namespace {

struct SignalColors {
    Token ground;
    Token ink;
};

// ANSI Z535.4 and ISO 3864-2 give the header its colours; their contrast is not ours to choose.
SignalColors colors_of(Signal signal) {
    switch (signal) {
        case Signal::danger: return {Token::danger, Token::white};
        case Signal::warning: return {Token::warning, Token::black};
        case Signal::caution: return {Token::caution, Token::black};
        case Signal::notice: return {Token::notice, Token::white};
    }
    return {Token::warning, Token::black};
}

struct WarningSizes {
    float header;
    float pad_x;
    float pad_y;
    float text_width;
};

WarningSizes sizes_of(const Ui& ui, float width) {
    const float pad = ui.sketch(22);
    return {ui.sketch(50), pad, ui.sketch(10), ui.column(width - 2 * pad, Type::body)};
}

void warning_header(Ui& ui, Rect header, const WarningView& warning) {
    const SignalColors colors = colors_of(warning.signal);
    const float round = ui.sketch(10);
    ui.fill(header, colors.ground, round);
    // Only the upper corners are round.
    ui.fill({header.x, header.bottom() - round, header.w, round}, colors.ground);
    Rect words = header.inset(ui.sketch(22), 0);
    if (warning.signal != Signal::notice) {  // the alert symbol belongs to hazards to people
        const Rect icon = words.cut_left(ui.sketch(38), ui.sketch(14));
        warning_triangle(ui, icon.middle(), ui.sketch(36), colors.ink, colors.ground);
    }
    ui.fitted(words, warning.word,
              {.type = Type::body_bold, .ink = colors.ink, .exempt = true});
}

}  // namespace

float warning_height(const Ui& ui, float width, const WarningView& warning) {
    const WarningSizes sizes = sizes_of(ui, width);
    return sizes.header + 2 * sizes.pad_y +
           ui.paragraph_height(sizes.text_width, warning.text, {.type = Type::body});
}

float warning(Ui& ui, Dot at, float width, const WarningView& warning) {
    const WarningSizes sizes = sizes_of(ui, width);
    const Rect whole{at.x, at.y, width, warning_height(ui, width, warning)};
    ui.fill(whole, Token::warning_body, ui.sketch(10));
    warning_header(ui, {at.x, at.y, width, sizes.header}, warning);
    ui.hairline({at.x, at.y + sizes.header}, {whole.right(), at.y + sizes.header}, Token::ink);
    ui.edge(whole, Token::ink, ui.sketch(2), ui.sketch(10));
    ui.paragraph({at.x + sizes.pad_x, at.y + sizes.header + sizes.pad_y}, sizes.text_width,
                 warning.text, {.type = Type::body});
    return whole.h;
}

void picture_panel(Ui& ui, Rect rect, const PictureView& picture) {
    ui.fill(rect, Token::plate, ui.sketch(10));
    ui.edge(rect, Token::line, ui.sketch(1.5F), ui.sketch(10));
    Rect room = rect.inset(ui.sketch(24), ui.sketch(14));
    if (!picture.caption.empty()) {
        const TextSpec small{.type = Type::small, .ink = Token::ink_2};
        const float height = ui.paragraph_height(room.w, picture.caption, small);
        ui.fitted(room.cut_bottom(height, ui.sketch(8)), picture.caption, small);
    }
    ui.picture(room, picture.file, picture.parts);
}

float progress_height(const Ui& ui) {
    return ui.sketch(10);
}

void progress_row(Ui& ui, Rect rect, const Progress& progress) {
    if (progress.total <= 0) {
        return;
    }
    const auto total = static_cast<float>(progress.total);
    const float gap = std::min(ui.sketch(8), rect.w / total * 0.25F);
    const float width = (rect.w - gap * (total - 1)) / total;
    for (int i = 0; i < progress.total; ++i) {
        const Token token = i < progress.done    ? Token::touch
                            : i == progress.done ? Token::progress
                                                 : Token::to_come;
        const float x = rect.x + static_cast<float>(i) * (width + gap);
        ui.fill({x, rect.y, width, progress_height(ui)}, token, ui.sketch(5));
    }
}

}  // namespace holdpin
