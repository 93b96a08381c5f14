// Bytes of a seal, and a witness code as somebody types it: refused, or the same again.
#include <cstdint>
#include <cstdlib>

#include "ledger/ledger.hpp"
#include "ledger/seal.hpp"
#include "ledger/witness.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    const auto seal = holdpin::seal_from(text);
    if (seal && holdpin::seal_body(seal.value()) != text) std::abort();
    if (seal) static_cast<void>(holdpin::seal_holds(seal.value(), holdpin::Bytes(32, 1)));
    const auto witness = holdpin::witness_from(text);
    if (!witness) return 0;
    const auto again = holdpin::witness_from(witness.value().code);
    if (!again || again.value().code != witness.value().code) std::abort();
    return 0;
}
