// Bytes as a time authority could send them: refused, or a digest and a moment.
#include <cstdint>
#include <cstdlib>

#include "ledger/time_stamp.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view bytes(reinterpret_cast<const char*>(data), size);
    const auto stamp = holdpin::stamp_from(bytes);
    if (!stamp) return 0;
    if (stamp.value().time.size() < 20 || stamp.value().time.back() != 'Z') std::abort();
    return 0;
}
