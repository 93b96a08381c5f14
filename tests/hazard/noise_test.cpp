#include "hazard/noise.hpp"

#include "near.hpp"

using namespace holdpin;

namespace {

struct Allowed {
    double dba;
    double hours;
    double last;  // half a unit of the last printed digit, or why it is wider
};

// 29 CFR 1910.95 Appendix A, table G-16a: read, V=. 83: the current page prints 21.2, the archived
// one 21.1, as the formula has it. 104 and 118 are cut off in print (1.149 and 0.165).
constexpr Allowed kOshaTable[] = {
    {80, 32, 0.5}, {81, 27.9, 0.05}, {82, 24.3, 0.05}, {83, 21.1, 0.05}, {84, 18.4, 0.05},
    {85, 16, 0.5}, {86, 13.9, 0.05}, {87, 12.1, 0.05}, {88, 10.6, 0.05}, {89, 9.2, 0.05},
    {90, 8, 0.5}, {91, 7.0, 0.05}, {92, 6.1, 0.05}, {93, 5.3, 0.05}, {94, 4.6, 0.05},
    {95, 4, 0.5}, {96, 3.5, 0.05}, {97, 3.0, 0.05}, {98, 2.6, 0.05}, {99, 2.3, 0.05},
    {100, 2, 0.5}, {101, 1.7, 0.05}, {102, 1.5, 0.05}, {103, 1.3, 0.05}, {104, 1.1, 0.05},
    {105, 1, 0.5}, {106, 0.87, 0.005}, {107, 0.76, 0.005}, {108, 0.66, 0.005}, {109, 0.57, 0.005},
    {110, 0.5, 0.05}, {111, 0.44, 0.005}, {112, 0.38, 0.005}, {113, 0.33, 0.005}, {114, 0.29, 0.005},
    {115, 0.25, 0.005}, {116, 0.22, 0.005}, {117, 0.19, 0.005}, {118, 0.16, 0.006}, {119, 0.14, 0.005},
    {120, 0.125, 0.0005}, {121, 0.11, 0.005}, {122, 0.095, 0.0005}, {123, 0.082, 0.0006},
    {124, 0.072, 0.0005}, {125, 0.063, 0.0005}, {126, 0.054, 0.0005}, {127, 0.047, 0.0005},
    {128, 0.041, 0.0005}, {129, 0.036, 0.0005}, {130, 0.031, 0.0005},
};

// The same appendix, table A-1, dose to level: from memory, V= by its formula.
constexpr double kDoseTable[][2] = {
    {10, 73.4}, {15, 76.3}, {20, 78.4}, {25, 80.0}, {30, 81.3}, {35, 82.4}, {40, 83.4}, {45, 84.2},
    {50, 85.0}, {60, 86.3}, {70, 87.4}, {75, 87.9}, {80, 88.4}, {85, 88.8}, {90, 89.2}, {91, 89.3},
    {95, 89.6}, {100, 90.0}, {110, 90.7}, {120, 91.3}, {130, 91.9}, {150, 92.9}, {175, 94.0},
    {200, 95.0}, {250, 96.6}, {300, 97.9}, {400, 100.0}, {500, 101.6}, {800, 105.0}, {999, 106.6},
};

// NIOSH 98-126: from memory, minutes computed (C); 0.47 is printed as 28 seconds.
constexpr double kNioshTable[][3] = {{82, 960, 0.5}, {85, 480, 0.5}, {88, 240, 0.5},
                                     {91, 120, 0.5}, {94, 60, 0.5},  {97, 30, 0.5},
                                     {100, 15, 0.5}, {106, 3.75, 0.005}, {115, 0.47, 0.005}};

}  // namespace

TEST_CASE("every level of OSHA's table allows its hours") {
    for (const Allowed& row : kOshaTable) {
        CAPTURE(row.dba);
        CHECK(near(must(allowed_hours(row.dba, NoiseRule::osha)), row.hours, row.last));
    }
}

TEST_CASE("every dose of OSHA's table gives its level") {
    for (const auto& row : kDoseTable) {
        CAPTURE(row[0]);
        CHECK(near(must(noise_twa_dba(row[0], NoiseRule::osha)), row[1], 0.05));
    }
}

TEST_CASE("NIOSH allows half the time for every three decibels") {
    for (const auto& row : kNioshTable) {
        CAPTURE(row[0]);
        CHECK(near(60 * must(allowed_hours(row[0], NoiseRule::niosh)), row[1], row[2]));
    }
}

TEST_CASE("worked examples of a day come out") {
    // 1910.95 Appendix A, read, V= (tolerance 1): eight hours at 92 dBA, T 6.1 h, dose 131 %.
    CHECK(near(must(noise_day({{8, 92}}, NoiseRule::osha)).dose_percent, 131, 1));
    CHECK(near(must(noise_day({{8, 92}}, NoiseRule::osha)).dose_percent, 131.95, 0.005));
    // Read, V=: 95 dBA allows four hours.
    CHECK(near(must(noise_day({{4, 95}}, NoiseRule::osha)).dose_percent, 100, 1e-9));
    // Formula read, V=: a dose of 91 % is 89.3 dBA.
    CHECK(near(must(noise_twa_dba(91, NoiseRule::osha)), 89.32, 0.005));
    const NoiseDay day = must(noise_day({{4, 90}, {2, 95}}, NoiseRule::osha));
    CHECK(near(day.dose_percent, 100, 1e-9));
    CHECK(near(*day.twa_dba, 90, 1e-9));
}

TEST_CASE("a longer shift has a lower action level") {
    // Read, V=: 8 h 85, 10 h 83 (83.39), 12 h 82 (82.08) dBA.
    CHECK(near(must(osha_action_level_dba(8)), 85, 0.05));
    CHECK(near(must(osha_action_level_dba(10)), 83.39, 0.005));
    CHECK(near(must(osha_action_level_dba(12)), 82.08, 0.005));
}

TEST_CASE("what is quieter than 80 dBA adds nothing, and alone is a dose of 0") {
    const double alone = must(noise_day({{4, 95}}, NoiseRule::osha)).dose_percent;
    CHECK(must(noise_day({{4, 95}, {4, 79.9}}, NoiseRule::osha)).dose_percent == alone);
    CHECK(must(noise_day({{4, 95}, {4, 80}}, NoiseRule::osha)).dose_percent > alone);
    // 29 CFR 1910.95(d)(2)(i), from memory: levels from 80 to 130 dBA are integrated.
    for (const NoiseRule rule : {NoiseRule::osha, NoiseRule::niosh}) {
        const NoiseDay quiet = must(noise_day({{8, 70}, {2, 79.9}}, rule));
        CHECK(quiet.dose_percent == 0);
        CHECK_FALSE(quiet.twa_dba);
    }
}

TEST_CASE("louder and longer is more, and NIOSH is stricter from 85 dBA up") {
    for (double level = 85; level < 129; level += 1.5) {
        const double dose = must(noise_day({{2, level}}, NoiseRule::osha)).dose_percent;
        CHECK(dose < must(noise_day({{2, level + 1}}, NoiseRule::osha)).dose_percent);
        CHECK(dose < must(noise_day({{3, level}}, NoiseRule::osha)).dose_percent);
        CHECK(dose < must(noise_day({{2, level}}, NoiseRule::niosh)).dose_percent);
    }
}

TEST_CASE("one interval for eight hours has its own level as average") {
    CHECK(near(*must(noise_day({{8, 93}}, NoiseRule::osha)).twa_dba, 93, 0.01));
    CHECK(near(*must(noise_day({{8, 93}}, NoiseRule::niosh)).twa_dba, 93, 0.05));
    // Cut in pieces it stays the same day.
    CHECK(near_share(must(noise_day({{3, 93}, {5, 93}}, NoiseRule::osha)).dose_percent,
                     must(noise_day({{8, 93}}, NoiseRule::osha)).dose_percent, 1e-12));
}

TEST_CASE("a day of more than 24 hours, an empty one and absurd levels are refused") {
    CHECK_FALSE(noise_day({}, NoiseRule::osha).ok());
    CHECK_FALSE(noise_day({{12, 85}, {12.1, 85}}, NoiseRule::osha).ok());
    CHECK(noise_day({{12, 85}, {12, 85}}, NoiseRule::osha).ok());
    for (const double bad : {0.0, -1.0, 25.0, kNotANumber, kEndless}) {
        CHECK(noise_day({{bad, 90}}, NoiseRule::osha).error().where == "hours");
    }
    for (const double bad : {-5.0, 39.0, 130.1, kNotANumber, kEndless}) {
        CHECK(noise_day({{8, bad}}, NoiseRule::osha).error().where == "dba");
        CHECK_FALSE(allowed_hours(bad, NoiseRule::osha).ok());
    }
    CHECK(allowed_hours(135, NoiseRule::niosh).ok());
    CHECK_FALSE(noise_twa_dba(0, NoiseRule::osha).ok());
    CHECK_FALSE(osha_action_level_dba(0.5).ok());
}
