#pragma once
// The outbox: what waits to go out to one client, in order, as finished WebSocket frames. Bounded: see waiting().
//   Shape   a delta is framed once and shared by all clients; server frames carry no mask (RFC 6455, section 5.1)

#include <cstddef>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "server/store/store.h"

namespace squeezeout {

// A whole binary message as one WebSocket frame.
//   Source   RFC 6455, section 5.2
[[nodiscard]] Bytes websocket_frame(std::string_view payload);

class Outbox {
 public:
  enum class Kind {
    control,   // ping, pong, close, the handshake: made by the WebSocket layer
    reply,     // answers, errors, welcome: never dropped
    floor,     // deltas and beats: a fresh snapshot stands for them
    snapshot,  // floor, but not counted: it is as large as the shop
  };
  void push(Kind kind, Bytes frame);
  // What goes out next in one go: at least one frame when any waits, then up to `most` bytes.
  std::vector<Bytes> take(std::size_t most);
  // Forgets deltas and snapshots that have not gone out.
  void drop_floor();
  // Nothing may follow a close frame: what is pushed from here on is forgotten.
  void seal() { sealed_ = true; }

  static constexpr std::size_t kMaxTaken = 256;  // frames in one go

  std::size_t waiting() const { return waiting_; }  // bytes, without snapshots
  bool empty() const { return frames_.empty(); }

 private:
  struct Item {
    Kind kind;
    Bytes frame;
  };
  static std::size_t counted(const Item& item) {
    return item.kind == Kind::snapshot ? 0 : item.frame->size();
  }

  std::deque<Item> frames_;
  std::size_t waiting_ = 0;
  bool sealed_ = false;
};

}  // namespace squeezeout
