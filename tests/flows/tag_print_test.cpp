// The tag on the screen and out of it, with a printer in memory.
#include "flows/tag_print.hpp"

#include "records/works.hpp"
#include "shop.hpp"

namespace holdpin {
namespace {

struct PaperTray final : TagPrinter {
    bool works = true;
    bool takes = true;
    std::vector<TagCard> cards;

    bool has_printer() const override { return true; }
    Result<TagOut> put_out(const TagCard& card) override {
        if (!works) return Error{ErrorKind::failed, "no folder", "", ""};
        cards.push_back(card);
        return TagOut{takes, card.machine + ".pdf"};
    }
};

// A machine that was reported with nobody signed on, and the page of its tag.
struct TagShop : Shop {
    PaperTray* tray = nullptr;

    explicit TagShop(const std::string& language = "en", bool printer = true) : Shop(language) {
        if (printer) {
            auto made = std::make_unique<PaperTray>();
            tray = made.get();
            site->tags = std::move(made);
            restart();
        }
        tap("help");
        tap("report");
        tap("report:SW-14");
        tap("what:brakes");
        tap("who:none");
        tap("main");
        REQUIRE(page_id() == "tag/SW-14");
    }
    TagBody body() { return std::get<TagBody>(app->page().body); }
    std::string code() { return tag_of(*site->db, "SW-14").value()->code; }
};

}  // namespace

TEST_SUITE("tags") {
    TEST_CASE("the page of a tag says danger, machine, code, reason, date, and all of it in QR") {
        TagShop shop;
        const TagBody body = shop.body();
        CHECK(body.heading == "DANGER · DO NOT START");
        CHECK(body.plate == "SW-14");
        CHECK(body.code == shop.code());
        CHECK_FALSE(body.reason.empty());
        REQUIRE(body.lines.size() == 1);
        CHECK(body.lines[0].starts_with("25 Nov 2026, 06:05"));
        CHECK(typed_code(body.qr) == shop.code());
        CHECK(body.qr.starts_with("HPTAG:SW-14:"));
    }

    TEST_CASE("a printed tag is in the site's language and in English, and is entered each time") {
        TagShop shop("es");
        shop.tap("print");
        REQUIRE(shop.tray->cards.size() == 1);
        const TagCard& card = shop.tray->cards[0];
        CHECK(card.code == shop.code());
        CHECK(card.date.starts_with("25 nov 2026"));
        CHECK(card.reason != card.reason_english);
        CHECK(shop.entries().back().kind == "tag-printed");
        CHECK(shop.entries().back().data.at("way") == "printer");
        CHECK(shop.body().remark.find("impresora") != std::string::npos);
        shop.tap("main");
        CHECK(shop.entries().back().kind == "tag-put-up");
    }

    TEST_CASE("where a tag cannot be printed the page says to copy it by hand") {
        TagShop shop;
        shop.tray->takes = false;
        shop.tap("print");
        CHECK(shop.entries().back().data.at("way") == "folder");
        CHECK(shop.body().remark_is_held);
        CHECK(shop.body().remark.find("by hand") != std::string::npos);
        shop.tray->works = false;
        const std::size_t before = shop.entries().size();
        shop.tap("print");
        CHECK(shop.entries().size() == before);
        CHECK(shop.body().remark.find("by hand") != std::string::npos);
        TagShop bare("en", false);
        CHECK(bare.body().print.id.empty());
        CHECK(bare.body().hint.find("by hand") != std::string::npos);
    }

    TEST_CASE("a tag that hangs is shown and printed again, from the plate and from the desk") {
        TagShop shop;
        shop.tap("main");
        shop.restart();
        shop.sign_on("H-1042");
        shop.tap("machine:SW-14");
        shop.tap("jobs");
        shop.tap("tag-again");
        CHECK(shop.page_id() == "tag/SW-14");
        shop.tap("print");
        CHECK(shop.tray->cards.size() == 1);
        shop.tap("main");
        CHECK(shop.page_id() == "jobs/SW-14");
        shop.tap("back");
        shop.tap("back");
        shop.tap("machine:SW-15");
        shop.tap("jobs");
        shop.tap("tag-again");
        CHECK(shop.page_id() == "jobs/SW-15");
    }

    TEST_CASE("a site that wants no names on its tags has none on them") {
        Shop shop;
        shop.site->content.site.policy.tag_names = false;
        auto made = std::make_unique<PaperTray>();
        PaperTray* tray = made.get();
        shop.site->tags = std::move(made);
        shop.restart();
        shop.sign_on("H-1042");
        shop.tap("help");
        shop.tap("report");
        shop.tap("report:SW-14");
        shop.tap("what:brakes");
        shop.restart();
        shop.sign_on("H-1042");
        shop.tap("machine:SW-14");
        shop.tap("put-tag");
        CHECK(std::get<TagBody>(shop.app->page().body).lines[0] == "25 Nov 2026, 06:05");
        shop.tap("print");
        REQUIRE(tray->cards.size() == 1);
        CHECK(tray->cards[0].by.empty());
    }
}

}  // namespace holdpin
