#pragma once
// The hub: who is connected, what they hold, and what goes out to whom. It knows no socket: a session feeds it frames and
// drains an outbox.
//   Thread   the network's, all of it
//   Bounds   deltas kept for resuming: kRingEntries and kRingBytes. A client that has more than kMaxQueue waiting loses its
//            deltas and gets one fresh snapshot; twice in kTwice, or more than that in answers alone, and it is hung up.
//            Commands: kRate a second, kBurst at once, a device.

#include <chrono>
#include <deque>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "server/net/outbox.h"
#include "server/writer.h"

namespace squeezeout {

// One connected client, as the hub sees it.
class Peer {
 public:
  virtual ~Peer() = default;
  virtual Outbox& outbox() = 0;
  virtual void wake() = 0;                             // something is in the outbox
  virtual void hang_up(std::uint16_t close_code) = 0;  // after what is in the outbox
};

namespace close_code {
inline constexpr std::uint16_t kGoingAway = 1001, kPolicy = 1008, kTooLarge = 1009;
}

class Hub {
 public:
  using Time = std::chrono::steady_clock::time_point;
  enum class RateLimit { on, off };

  struct Wiring {
    std::function<bool(Ask)> submit;  // false: busy
    std::function<void(SessionId)> want_snapshot;
    std::function<std::int64_t()> now_ms;  // the shop's clock
    std::function<CommandId()> new_id;     // for commands that come without one
    StoreName store;
    double clock_speed = 1;
    std::uint64_t revision = 0;  // at the start
    RateLimit rate_limit = RateLimit::on;
  };
  explicit Hub(Wiring wiring) : wiring_(std::move(wiring)), revision_(wiring_.revision) {}

  // From sessions.
  SessionId join(Peer& peer);
  void leave(SessionId session);
  void frame(SessionId session, std::string_view bytes, Time now);
  // What came cannot be a frame.
  void refuse(SessionId session, ErrorCode code, std::string text);

  // From HTTP: one command of a device without a session. `then` is called once, with the Answer or the Error, perhaps before
  // this returns; never after forget().
  using Then = std::function<void(const ServerFrame&)>;
  SessionId ask(DeviceId device, Body body, Time now, Then then);
  void forget(SessionId asked) { asked_.erase(asked); }

  // From the writer, on the network's thread, in the order in which it made them.
  void committed(Output output, Time now);
  void snapshot(FreshSnapshot snapshot);

  // From timers.
  void beat(Time now);
  // No command is taken any more; clients are told.
  void going_down();

  std::int64_t now_ms() const { return wiring_.now_ms(); }  // the shop's clock
  std::uint64_t revision() const { return revision_; }
  std::size_t sessions() const { return clients_.size() + asked_.size(); }

  static constexpr std::size_t kMaxQueue = 256 * 1024;
  static constexpr std::size_t kRingEntries = 4'096, kRingBytes = 8 * 1024 * 1024;
  static constexpr std::chrono::seconds kTwice{10};
  static constexpr double kRate = 20, kBurst = 50;

 private:
  enum class State { new_here, waits_for_snapshot, follows };
  struct Client {
    Peer* peer = nullptr;
    State state = State::new_here;
    DeviceId device;
    bool welcomed = false;
    std::optional<Time> overflowed;
  };
  struct Bucket {
    double tokens = kBurst;
    Time at{};
  };

  void take(SessionId session, Client& client, const Hello& hello);
  void take(SessionId session, Client& client, Asked asked, Time now);
  // Hands the command on to the writer; why not, when it is not.
  std::optional<Error> submit(SessionId session, DeviceId device, Asked asked, Time now);
  void answer_once(SessionId asked, const ServerFrame& frame);
  void resume(Client& client, std::uint64_t from);
  void ask_snapshot(SessionId session, Client& client);
  void welcome(Client& client, std::uint64_t revision);
  void send(Client& client, const ServerFrame& frame);
  void send_floor(SessionId session, Client& client, const Bytes& frame, Time now);
  void fail(Client& client, ErrorCode code, std::string text, std::optional<CommandId> command);
  bool allowed(DeviceId device, Time now);

  Wiring wiring_;
  std::uint64_t revision_;  // the last one that was published
  std::map<SessionId, Client> clients_;
  std::map<SessionId, Then> asked_;
  SessionId last_session_ = 0;
  std::deque<Bytes> ring_;  // framed deltas; the last one is revision_
  std::size_t ring_bytes_ = 0;
  std::map<DeviceId, Bucket> buckets_;
  bool going_down_ = false;
};

}  // namespace squeezeout
