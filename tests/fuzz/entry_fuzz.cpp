// Bytes of an entry: whatever they are, they are refused, or are exactly those that the entry
// gives.
#include <cstdint>
#include <cstdlib>

#include "ledger/ledger.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view body(reinterpret_cast<const char*>(data), size);
    const auto entry = holdpin::entry_from(body);
    if (!entry) return 0;
    const auto again = holdpin::entry_body(entry.value());
    if (!again || again.value() != body) std::abort();
    return 0;
}
