#include "flows/about_print.hpp"

#include "shop.hpp"

using namespace holdpin;

namespace {

// Writes nothing, and says what it is told to.
struct HandPrinter final : AboutPrinter {
    std::vector<BinderPlace> places() override { return {{"/media/usb/MINE", true}}; }
    Result<std::string> print(const Person& person, const std::string& folder) override {
        asked = person.id;
        if (fault) return Error{*fault, "no", folder, ""};
        return folder + "/about.pdf";
    }
    std::string asked;
    std::optional<ErrorKind> fault;
};

struct AboutDesk {
    Shop shop;
    HandPrinter printer;
    explicit AboutDesk(const std::string& language = "en") : shop(language) {
        shop.site->about_printer = &printer;
        shop.restart();
        shop.sign_on("H-1042");
        shop.tap("desk");
        shop.pin_of("H-1042");
        shop.tap("desk:about-me");
        shop.tap("print");
    }
};

}  // namespace

TEST_CASE("an operator takes the own records along without a supervisor, and nothing is entered") {
    AboutDesk desk;
    const auto size = desk.shop.site->ledger->size();
    CHECK(desk.shop.page_id() == "about-me/print");
    desk.shop.tap("place:/media/usb/MINE");
    CHECK(desk.printer.asked == "p-okafor-lind");
    CHECK(desk.shop.shows("about.pdf"));
    CHECK(desk.shop.shows("in /media/usb/MINE"));
    CHECK(desk.shop.site->ledger->size() == size);
    desk.shop.tap("place:/media/usb/MINE");
    desk.shop.tap("close");
    CHECK(desk.shop.page_id() == "about-me");
}

TEST_CASE("a place that cannot be written to says in plain words what is wrong") {
    struct Case {
        ErrorKind kind;
        const char* words;
    };
    for (const Case& one : {Case{ErrorKind::full, "no room left"},
                            Case{ErrorKind::read_only, "can only be read"},
                            Case{ErrorKind::absent, "That place is gone"},
                            Case{ErrorKind::refused, "may not write there"},
                            Case{ErrorKind::damaged, "cannot be read just now"},
                            Case{ErrorKind::failed, "could not be written there"}}) {
        AboutDesk desk;
        desk.printer.fault = one.kind;
        desk.shop.tap("place:/media/usb/MINE");
        CHECK(desk.shop.shows("Your document is not written"));
        CHECK_MESSAGE(desk.shop.shows(one.words), one.words);
        desk.printer.fault.reset();
        desk.shop.tap("again");
        desk.shop.tap("place:/media/usb/MINE");
        CHECK(desk.shop.shows("Your document is written"));
    }
}

TEST_CASE("a kiosk without a printer of own records says how they are asked for") {
    AboutDesk desk;
    desk.shop.site->about_printer = nullptr;
    desk.shop.restart();
    desk.shop.sign_on("H-1042");
    desk.shop.tap("desk");
    desk.shop.pin_of("H-1042");
    desk.shop.tap("desk:about-me");
    desk.shop.tap("print");
    CHECK(desk.shop.shows("holdpin people about-me"));
}
