#include "cli/people_csv.hpp"

#include <doctest/doctest.h>

using namespace holdpin;

TEST_CASE("people are read from columns in any order, several duties in one cell") {
    Faults faults;
    const auto people = people_of_csv(
        "p.csv",
        "name,id,badge,duties,language,listed_until\r\n"
        "\"Morán, Ana\",p-moran,H-7,operator trainer,es,2028-01-31\r\n",
        faults);
    REQUIRE(faults.empty());
    REQUIRE(people.size() == 1);
    CHECK(people[0].name == "Morán, Ana");
    CHECK(people[0].duties == std::vector<Duty>{Duty::operating, Duty::training});
    CHECK(people[0].listed_until == Date{2028, 1, 31});
}

TEST_CASE("all faults of a list are told at once, with their lines") {
    Faults faults;
    people_of_csv("p.csv",
                  "id,name,badge,language,duties\n"
                  "p-a,Ann,H-1,en,operator\n"
                  "P A,Ben,H-2,en,operator\n"
                  "p-c,Cyd,H-1,fr,dancer\n",
                  faults);
    std::vector<int> lines;
    for (const Fault& fault : faults) lines.push_back(fault.line);
    // Line 4: no such duty, so none at all, no such language, a badge twice.
    CHECK(lines == std::vector<int>{3, 4, 4, 4, 4});
}

TEST_CASE("a column that is missing or unknown is told before any row") {
    Faults faults;
    people_of_csv("p.csv", "id,name,badge,language,shoe\np-a,Ann,H-1,en,42\n", faults);
    REQUIRE(faults.size() == 2);
    CHECK(faults[0].what.find("shoe") != std::string::npos);
    CHECK(faults[1].what.find("duties") != std::string::npos);
}
