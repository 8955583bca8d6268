#pragma once
// The Store: where revisions, answers and claims are kept. One of the four seams; sqlite/ is for shops, memory/ for tests.
//   Order    load() once, then append() any number of times, then close(). One thread at a time.
//   Durable  when append() returns Done, all of the batch survives any crash; when it returns Trouble::full, none of it is
//            kept; after any other trouble what is kept is unknown: end the program, start again, load()
//   Guard    the store refuses by itself (CHECK) a batch that would claim more than the stock: the floor's ledger is
//            the first line, this is the second

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "proto/codec.h"
#include "server/trouble.h"

namespace squeezeout {

using Bytes = std::shared_ptr<const std::string>;

// One revision.
struct Entry {
  std::uint64_t revision = 0;
  Instant at{};
  std::optional<CommandId> command;  // none: time alone did it
  DeviceId device;
  std::vector<Event> events;
};

// The one answer of a command, as it goes over the wire: encode(Answer).
struct KeptAnswer {
  CommandId command;
  Instant at{};
  Bytes bytes;
};

struct Batch {
  std::vector<Entry> entries;
  std::vector<KeptAnswer> answers;
};

struct Loaded {
  Floor floor;
  std::uint64_t revision = 0;
  Instant at{};                // of the last revision
  std::uint64_t snapshot = 0;  // the revision at which replay started
  std::optional<Trouble>
      trouble;  // damage: what could be proven is here, and the store takes nothing more
};

class Store {
 public:
  virtual ~Store() = default;
  virtual StoreName name() const = 0;

  // The floor as it is kept: the last snapshot and every revision after it, proven against the tables.
  [[nodiscard]] virtual Result<Loaded, Trouble> load() = 0;
  [[nodiscard]] virtual Result<Done, Trouble> append(const Batch& batch) = 0;

  // The answer of a command. An empty string: it was answered so long ago that the answer is no longer kept.
  [[nodiscard]] virtual Result<std::optional<std::string>, Trouble> answer(CommandId command) = 0;

  // Shortens the next load(), and archives what is long over. `floor` is the floor at the last appended revision.
  [[nodiscard]] virtual Result<Done, Trouble> keep_snapshot(const Floor& floor, Instant now) = 0;
  virtual void close() = 0;
};

inline constexpr Seconds kKeepAnswers = std::chrono::hours{24 * 30};
inline constexpr Seconds kKeepClaims =
    std::chrono::hours{24 * 8};  // after their end; longer than a fact may be late

// What an event claims: all claims of one holder, replacing those before. None: it touches no claims.
struct ClaimsPut {
  Holder holder;
  std::vector<Claim> claims;  // by kind, one a kind, none empty
};
[[nodiscard]] std::optional<ClaimsPut> claims_put(const Event& event);

}  // namespace squeezeout
