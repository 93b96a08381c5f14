// A table of people: faults with their line, or people who all have what everybody must have.
#include <cstdint>
#include <cstdlib>

#include "cli/people_csv.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    holdpin::Faults faults;
    const auto people = holdpin::people_of_csv("people.csv", text, faults);
    if (!faults.empty()) return 0;
    for (const holdpin::Person& person : people) {
        if (person.id.empty() || person.name.empty() || person.badge.empty()) std::abort();
        if (person.duties.empty()) std::abort();
    }
    return 0;
}
