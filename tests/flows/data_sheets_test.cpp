// Safety data sheets at the kiosk, with a shelf in memory in the place of the folder.
#include "flows/data_sheets.hpp"

#include "shop.hpp"

using namespace holdpin;

namespace {

class Shelf final : public DataSheets {
  public:
    std::vector<DataSheet> sheets{{"AG-1.png", "AG-1", ""},
                                  {"FC-20.en.pdf", "FC-20", "en", "floor cleaner"},
                                  {"FC-20.es.pdf", "FC-20", "es", "limpiador de pisos"},
                                  {"jabon.pdf", "Jabón ácido", ""},
                                  {"OF-3.en.pdf", "OF-3", "en"}};
    std::vector<std::string> drawn;
    bool fails = false;

    std::vector<DataSheet> list() const override { return sheets; }
    Result<DrawnSheet> draw(const std::string& id, int page) override {
        drawn.push_back(id + " " + std::to_string(page));
        if (fails) return Error{ErrorKind::failed, "it took too long", id, ""};
        return DrawnSheet{"/nowhere.png", 1545, 2000, page, 2};
    }
};

struct ShopWithShelf : Shop {
    explicit ShopWithShelf(const std::string& language = "en") : Shop(language) {
        auto made = std::make_unique<Shelf>();
        shelf = made.get();
        site->data_sheets = std::move(made);
        restart();
    }
    Shelf* shelf = nullptr;
};

std::vector<std::string> ids_for(const Shelf& shelf, const std::string& language,
                                 const std::string& wanted = "") {
    std::vector<std::string> ids;
    for (const DataSheet& sheet : sheets_for(shelf.sheets, language, wanted)) {
        ids.push_back(sheet.id);
    }
    return ids;
}

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("a data sheet is three taps away with nobody signed on, and enters nothing") {
        ShopWithShelf shop;
        const auto before = shop.site->ledger->size();
        shop.tap("help");
        shop.tap("data-sheets");
        CHECK(shop.shows("Nearest eyewash: at the wash bay"));
        CHECK(shop.shows("floor cleaner"));
        shop.tap("data-sheet:FC-20.en.pdf");
        CHECK(shop.page_id() == "data-sheet/FC-20/1");
        CHECK(shop.shows("Nearest eyewash: at the wash bay"));
        CHECK(shop.shows("page 1 of 2"));
        shop.tap("turn");
        CHECK(shop.shows("page 2 of 2"));
        shop.tap("turn");
        CHECK(shop.shows("page 1 of 2"));
        shop.tap("back");
        CHECK(shop.page_id() == "data-sheets");
        CHECK(shop.shelf->drawn ==
              std::vector<std::string>{"FC-20.en.pdf 1", "FC-20.en.pdf 2", "FC-20.en.pdf 1"});
        CHECK(shop.site->ledger->size() == before);
    }

    TEST_CASE("a page that stays is drawn once, however often it is asked for") {
        ShopWithShelf shop;
        shop.tap("help");
        shop.tap("data-sheets");
        shop.tap("data-sheet:AG-1.png");
        for (int i = 0; i < 20; ++i) shop.page_id();
        CHECK(shop.shelf->drawn.size() == 1);
    }

    TEST_CASE("each reader is shown the sheet in his own language where there are two") {
        const Shelf shelf;
        CHECK(ids_for(shelf, "en") ==
              std::vector<std::string>{"AG-1.png", "FC-20.en.pdf", "jabon.pdf", "OF-3.en.pdf"});
        CHECK(ids_for(shelf, "es") ==
              std::vector<std::string>{"AG-1.png", "FC-20.es.pdf", "jabon.pdf", "OF-3.en.pdf"});
        ShopWithShelf shop("es");
        shop.tap("help");
        shop.tap("data-sheets");
        CHECK(shop.shows("en inglés"));
    }

    TEST_CASE("a product is found by part of its name, whatever its capitals and accents") {
        const Shelf shelf;
        CHECK(ids_for(shelf, "en", "fc") == std::vector<std::string>{"FC-20.en.pdf"});
        CHECK(ids_for(shelf, "es", "pisos") == std::vector<std::string>{"FC-20.es.pdf"});
        CHECK(ids_for(shelf, "en", "ACIDO jabon") == std::vector<std::string>{"jabon.pdf"});
        CHECK(ids_for(shelf, "en", "ácido fc").empty());
        ShopWithShelf shop;
        for (int i = 0; i < 9; ++i) {
            shop.shelf->sheets.push_back({"z" + std::to_string(i), "Z " + std::to_string(i), ""});
        }
        shop.tap("help");
        shop.tap("data-sheets");
        shop.tap("find-data-sheet");
        shop.tap("main", "jabón");
        CHECK(shop.page_id() == "data-sheets/found");
        CHECK(shop.shows("Jabón ácido"));
        CHECK_FALSE(shop.shows("FC-20"));
        shop.tap("back");
        CHECK(shop.page_id() == "data-sheets");
        shop.tap("find-data-sheet");
        shop.tap("main", "nothing like it");
        CHECK(shop.shows("No data sheet found here"));
    }

    TEST_CASE("a sheet that cannot be drawn is said in a sentence, with the eyewash") {
        ShopWithShelf shop;
        shop.shelf->fails = true;
        shop.tap("help");
        shop.tap("data-sheets");
        shop.tap("data-sheet:FC-20.en.pdf");
        CHECK(shop.shows("The sheet of FC-20 cannot be shown"));
        CHECK(shop.shows("Use the label and the paper sheet"));
        CHECK(shop.shows("Nearest eyewash"));
        shop.tap("main");
        CHECK(shop.page_id() == "data-sheets");
        shop.shelf->fails = false;
        shop.tap("data-sheet:FC-20.en.pdf");
        shop.shelf->fails = true;
        shop.tap("turn");
        CHECK(shop.shows("cannot be shown"));
    }

    TEST_CASE("a kiosk that keeps no data sheets offers none") {
        Shop shop;
        shop.tap("help");
        CHECK_FALSE(shop.shows("Safety data sheets"));
        shop.tap("data-sheets");
        CHECK(shop.page_id() == "emergency");
    }
}
