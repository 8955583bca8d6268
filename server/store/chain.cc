#include "server/store/chain.h"

#include <openssl/evp.h>

#include <memory>
#include <string>

#include "common/base/check.h"

namespace squeezeout {
namespace {

// Eight bytes, least significant first.
std::string number(std::uint64_t n) {
  std::string out(8, '\0');
  for (char& c : out) {
    c = static_cast<char>(n & 0xff);
    n >>= 8;
  }
  return out;
}

template <std::size_t N>
std::string_view view(const std::array<std::uint8_t, N>& bytes) {
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

}  // namespace

std::string_view as_text(const Digest& digest) { return view(digest); }

Digest sha256(std::initializer_list<std::string_view> parts) {
  struct Free {
    void operator()(EVP_MD_CTX* context) const { EVP_MD_CTX_free(context); }
  };
  static const EVP_MD* const kSha256 = EVP_MD_fetch(nullptr, "SHA256", nullptr);
  thread_local const std::unique_ptr<EVP_MD_CTX, Free> context{EVP_MD_CTX_new()};
  Digest digest{};
  CHECK(kSha256 != nullptr && EVP_DigestInit_ex(context.get(), kSha256, nullptr) == 1);
  for (const std::string_view part : parts) {
    const std::string length = number(part.size());
    CHECK(EVP_DigestUpdate(context.get(), length.data(), length.size()) == 1);
    CHECK(EVP_DigestUpdate(context.get(), part.data(), part.size()) == 1);
  }
  CHECK(EVP_DigestFinal_ex(context.get(), digest.data(), nullptr) == 1);
  return digest;
}

Digest chain_begin(StoreName store) { return sha256({"squeezeout journal", view(store.bytes)}); }

Digest chain_next(const Digest& before, const Entry& entry, std::string_view events) {
  const std::string_view command = entry.command ? view(entry.command->bytes) : std::string_view{};
  const auto at = static_cast<std::uint64_t>(entry.at.time_since_epoch().count());
  return sha256({view(before), number(entry.revision), number(at), command,
                 view(entry.device.bytes), events});
}

}  // namespace squeezeout
