// A time stamp is the word of somebody else's clock that bytes existed at a moment (RFC 3161). Here
// the bytes are a seal: whoever keeps one can show of entries made later, with the kiosk's key and
// a clock set back, that they are not those. This writes the query and reads the reply. It does not
// judge who stamped: that takes the authority's certificate, and openssl (ledger/FORMAT.md).
#pragma once

#include <string>
#include <string_view>

#include "base/result.hpp"
#include "base/sha256.hpp"
#include "ledger/seal.hpp"

namespace holdpin {

// What is stamped: SHA-256 of the seal's body and a line feed, the bytes of `seals/<size>.json`.
Sha256Digest stamped_digest(const Seal& seal);

// A TimeStampReq in DER: version 1, SHA-256, no nonce, the certificates of the signer wanted.
std::string stamp_query(const Sha256Digest& digest);

struct TimeStamp {
    Sha256Digest digest{};
    std::string time;  // as the authority says: 2026-11-25T11:40:12Z; a fraction stays
};
// With the certificates of its signer a reply has a few thousand bytes.
inline constexpr std::size_t kMostStampBytes = 1U << 16;
// A TimeStampResp in DER. Errors: refused (the authority stamped nothing), damaged (it is no reply,
// a longer one, or not over a SHA-256).
Result<TimeStamp> stamp_from(std::string_view reply);

}  // namespace holdpin
