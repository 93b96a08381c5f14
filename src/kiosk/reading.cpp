// Widgets that are only read: the picture in its panel, the row of progress.

#include <algorithm>

#include "kiosk/widgets.hpp"

namespace holdpin {

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
