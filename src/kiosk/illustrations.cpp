#include "kiosk/illustrations.hpp"

#include <cstdio>
#include <utility>

#include "base/result.hpp"
#include "base/text.hpp"

namespace holdpin {

namespace {

void report(const Error& error) { std::fprintf(stderr, "<4>%s\n", error.sentence().c_str()); }

Result<Drawing> painted(const std::string& folder, const PictureAsk& ask) {
    const std::string path = folder + "/" + ask.file + ".svg";
    DrawingOrder order{.svg = TRY(read_file(path)),
                       .where = path,
                       .width = ask.width,
                       .height = ask.height,
                       .parts = {},
                       .night = ask.night};
    for (const auto& part : ask.parts) {
        order.parts.push_back(part.id);
    }
    auto drawing = draw_svg(order);
    if (!drawing.ok() && drawing.error().kind == ErrorKind::absent) {
        report(drawing.error());
        order.parts.clear();
        return draw_svg(order);
    }
    return drawing;
}

}  // namespace

Paint illustration_paint(std::string folder) {
    return [folder = std::move(folder)](const PictureAsk& ask) {
        auto drawing = painted(folder, ask);
        if (!drawing.ok()) {
            report(drawing.error());
            return Drawing{};
        }
        return std::move(drawing).value();
    };
}

}  // namespace holdpin
