#pragma once
// The hash chain of the journal: each revision's hash covers its own content and the hash before it.
//   Source   SHA-256 (FIPS 180-4) by OpenSSL; the exact bytes are in sqlite/FORMAT.md#chain

#include <array>
#include <cstdint>
#include <string_view>

#include "server/store/store.h"

namespace squeezeout {

using Digest = std::array<std::uint8_t, 32>;

// Of all parts, one after the other, each led by its length.
[[nodiscard]] Digest sha256(std::initializer_list<std::string_view> parts);

[[nodiscard]] Digest chain_begin(StoreName store);
[[nodiscard]] Digest chain_next(const Digest& before, const Entry& entry, std::string_view events);

[[nodiscard]] std::string_view as_text(const Digest& digest);

}  // namespace squeezeout
