#include "gallery.hpp"

#include <iterator>

#include "gallery_pieces.hpp"

namespace holdpin::gallery {

Button button(std::string id, std::string label, std::string second) {
    return {std::move(id), std::move(label), std::move(second), true, {}};
}

Tile tile(std::string id, std::string label, std::string drawing, TileState state) {
    Tile one;
    one.id = std::move(id);
    one.label = std::move(label);
    one.drawing = std::move(drawing);
    one.state = state;
    return one;
}

Page page_of(W w, std::string id, Body body) {
    Page page;
    page.id = std::move(id);
    page.language = w.spanish() ? "es" : "en";
    page.left = w("SW-14 · round before use", "SW-14 · revisión antes del uso");
    page.middle = w("Station 2 of 9 · LP cylinder", "Estación 2 de 9 · cilindro LP");
    page.right = "R. Okafor-Lind · 05:44";
    page.example = w("example data", "datos de ejemplo");
    page.body = std::move(body);
    page.back = button("back", w("Back", "Atrás"));
    page.help = button("help", w("Problem or emergency", "Problema o emergencia"));
    page.main =
        button("main", w("Next", "Siguiente"), w("to the next point", "al punto siguiente"));
    return page;
}

std::vector<Exhibit> exhibits(std::string_view language) {
    const Words w(language);
    std::vector<Exhibit> all;
    for (auto* pages : {plate_pages, asking_pages, typing_pages, reading_pages, estimate_pages}) {
        auto some = pages(w);
        std::move(some.begin(), some.end(), std::back_inserter(all));
    }
    return all;
}

}  // namespace holdpin::gallery
