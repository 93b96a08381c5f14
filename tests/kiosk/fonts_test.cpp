#include <doctest/doctest.h>

#include "kiosk/fonts.hpp"

using namespace holdpin;

TEST_SUITE("kiosk") {
TEST_CASE("the capitals of a plate number are 15 mm high and those of a state word 6 mm") {
    for (const float px_per_mm : {5.9F, 5.56F}) {
        const Result<std::shared_ptr<Fonts>> loaded = Fonts::shared(Scale{px_per_mm});
        REQUIRE(loaded.ok());
        const Fonts& fonts = *loaded.value();
        const Scale scale = fonts.scale();
        CHECK(scale.to_mm(fonts.capitals(Type::plate_huge)) == doctest::Approx(15).epsilon(0.02));
        CHECK(scale.to_mm(fonts.capitals(Type::state)) == doctest::Approx(6).epsilon(0.03));
    }
}

TEST_CASE("every letter of Spanish and every sign in use has a glyph, and others are told") {
    const Result<std::shared_ptr<Fonts>> loaded = Fonts::shared(Scale{5.9F});
    REQUIRE(loaded.ok());
    const Fonts& fonts = *loaded.value();
    const std::string used =
        "áéíóúüñÁÉÍÓÚÜÑ¿¡«»·–—…‘’“”°ºª€±×÷≤≥≠−→←↑↓µ½²³₂\u00A0\u2009\u202F\uFFFD";
    for (const Type type : {Type::small, Type::small_bold, Type::body, Type::body_bold,
                            Type::heading, Type::big, Type::state, Type::mono, Type::mono_bold}) {
        CAPTURE(static_cast<int>(type));
        CHECK(fonts.knows(type, used));
    }
    CHECK_FALSE(fonts.knows(Type::body, "漢"));
    CHECK_FALSE(fonts.knows(Type::plate, "Ñ"));
}
}
