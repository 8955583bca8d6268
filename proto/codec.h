#pragma once
// The codec: domain records to bytes and back. Nothing above this header sees Protobuf.
//   Shape    bytes are one message of wire.proto; encoding is deterministic (the journal's hash chain rests on it)
//   Refuses  Malformed names the field and the limit: what comes from outside is checked here, once
//   Limits   strings <= 200 code points of valid UTF-8 without control or bidi characters; counts 1..10,000; repeated
//            fields <= 256 in commands, points of air <= 2,000 with rising instants; unknown enum values refused

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "common/base/result.h"
#include "common/floor/command.h"
#include "common/floor/event.h"
#include "common/floor/refusal.h"
#include "common/floor/state.h"

namespace squeezeout {

inline constexpr std::uint32_t kProtocol = 3;
inline constexpr std::size_t kMaxClientFrame = 64 * 1024;

enum class ErrorCode {
  malformed = 1,
  too_large,
  unknown,
  too_new,
  no_hello,
  busy,
  stale_command,
  read_only,
  going_down,
  too_old
};

struct Malformed {
  ErrorCode code = ErrorCode::malformed;
  std::string what;                  // "command.reserve.step: is -3; use 0 to 255"
  std::optional<CommandId> command;  // when one can be named
};

using StoreName = Id128<struct StoreTag>;

// ---- client to server ----
struct Hello {
  std::uint32_t protocol = kProtocol;
  DeviceId device;
  std::optional<StoreName> store;
  std::uint64_t revision = 0;
};
// A command as a client sends it: facts without a time mean "now", which the server fills in from its clock.
struct Asked {
  CommandId id;
  Body body;  // a fact's `at` equal to kAtServer is filled in by the server
};
inline constexpr Instant kAtServer = Instant::min();

using ClientFrame = std::variant<Hello, Asked>;
[[nodiscard]] std::string encode(const ClientFrame& frame);
[[nodiscard]] Result<ClientFrame, Malformed> decode_client_frame(std::string_view bytes);

// ---- server to client ----
struct Welcome {
  std::uint32_t protocol = kProtocol;
  StoreName store;
  std::uint64_t revision = 0;
  std::int64_t server_time_ms = 0;
  double clock_speed = 1;
  std::string server_version;
};
struct Snapshot {
  std::uint64_t revision = 0;
  Floor floor;
  Instant since{};
};
struct Delta {
  std::uint64_t revision = 0;
  Instant at{};
  std::optional<CommandId> command;
  std::vector<Event> events;
};
struct Answer {
  CommandId command;
  std::uint64_t revision = 0;
  std::optional<Refusal> refusal;
  GlueUpId glue_up;
};
struct Beat {
  std::uint64_t revision = 0;
  std::int64_t server_time_ms = 0;
};
struct Error {
  ErrorCode code = ErrorCode::malformed;
  std::string text;
  std::optional<CommandId> command;
};
using ServerFrame = std::variant<Welcome, Snapshot, Delta, Answer, Beat, Error>;
[[nodiscard]] std::string encode(const ServerFrame& frame);
[[nodiscard]] Result<ServerFrame, Malformed> decode_server_frame(std::string_view bytes);
// The same as encode(Snapshot{...}) without copying the floor.
[[nodiscard]] std::string encode_snapshot(std::uint64_t revision, const Floor& floor,
                                          Instant since);

// ---- journal and store ----
[[nodiscard]] std::string encode_events(const std::vector<Event>& events);
[[nodiscard]] Result<std::vector<Event>, Malformed> decode_events(std::string_view bytes);
[[nodiscard]] std::string encode_floor(const Floor& floor);  // whole: a snapshot on disk
[[nodiscard]] Result<Floor, Malformed> decode_floor(std::string_view bytes);

// ---- ids as text ----
[[nodiscard]] std::string hex(const std::array<std::uint8_t, 16>& bytes);

}  // namespace squeezeout
