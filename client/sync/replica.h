#pragma once
// The replica: this device's mirror of the floor. It changes only by what the server sends; screens and the command line read it.
//   Shape    feed it frames and the steady clock; it says what must be sent. It owns no socket and no thread.
//   Facts    (clamps on/off, scraped, late, spoiled, broken, climate) are stamped with the shop's time at the press, queued, and
//            sent again with the same id until answered, over any number of reconnects
//   Requests (reserve, move, start, undo...) made while not live are answered `lost` at once: never shown as granted
//   Clock    the shop's time is the server's, carried on by the steady clock between beats; a bench's own clock is not asked

#include <chrono>
#include <cstdint>
#include <deque>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "proto/codec.h"

namespace squeezeout {

using Steady = std::chrono::steady_clock::time_point;

enum class Link {
  connecting,  // nothing from the server yet
  live,        // heard within 3 s
  late,        // 3 to 10 s ago
  not_live,    // longer, or the connection is gone for so long
};

struct Reply {  // the end of one command
  CommandId command;
  Body asked;
  enum class How { done, refused, lost, error } how = How::done;
  std::optional<Refusal> refusal;
  std::string error;     // text of an Error frame
  GlueUpId glue_up;
};

class Replica {
 public:
  explicit Replica(DeviceId device) : device_(device) {}

  // --- from the connection ---
  void connected(Steady now);
  void disconnected(Steady now);
  void received(const ServerFrame& frame, Steady now);
  // Frames to be sent, in order: the hello after a connect, then commands.
  std::vector<ClientFrame> take_outgoing();

  // --- from the screen ---
  // Random ids come from the caller (the Ids seam). Returns the id.
  CommandId ask(CommandId id, Body body, Steady now);
  std::vector<Reply> take_replies();

  // --- to read ---
  bool has_floor() const { return have_floor_; }
  const Floor& floor() const { return floor_; }
  std::uint64_t revision() const { return revision_; }
  Instant now(Steady now) const;               // the shop's time; meaningless before the first welcome
  std::int64_t now_ms(Steady now) const;
  Link link(Steady now) const;
  std::chrono::seconds silent_for(Steady now) const;
  std::size_t facts_waiting() const;
  std::uint64_t generation() const { return generation_; }  // grows whenever something shown may have changed

 private:
  struct Pending {
    CommandId id;
    Body body;
    bool fact = false;
    bool sent = false;
  };
  DeviceId device_;
  std::optional<StoreName> store_;
  Floor floor_;
  bool have_floor_ = false;
  std::uint64_t revision_ = 0;
  bool connected_ = false;
  bool hello_due_ = false;
  bool welcomed_ = false;
  std::optional<Steady> heard_;
  std::int64_t server_ms_ = 0;
  Steady server_ms_at_{};
  double clock_speed_ = 1;
  std::deque<Pending> pending_;
  std::vector<Reply> replies_;
  std::uint64_t generation_ = 0;
};

// Facts happened: they are kept and sent later. Everything else asks.
[[nodiscard]] bool is_fact(const Body& body);

}  // namespace squeezeout
