#include "server/net/outbox.h"

#include <utility>

namespace squeezeout {

Bytes websocket_frame(std::string_view payload) {
  std::string frame;
  frame.reserve(payload.size() + 10);
  frame += '\x82';  // final, binary
  const std::uint64_t size = payload.size();
  int length_bytes = 0;
  if (size <= 125) {
    frame += static_cast<char>(size);
  } else if (size <= 0xffff) {
    frame += '\x7e';
    length_bytes = 2;
  } else {
    frame += '\x7f';
    length_bytes = 8;
  }
  for (int i = length_bytes - 1; i >= 0; --i) frame += static_cast<char>((size >> (8 * i)) & 0xff);
  frame += payload;
  return std::make_shared<const std::string>(std::move(frame));
}

void Outbox::push(Kind kind, Bytes frame) {
  if (sealed_) return;
  frames_.push_back({kind, std::move(frame)});
  waiting_ += counted(frames_.back());
}

std::vector<Bytes> Outbox::take(std::size_t most) {
  std::vector<Bytes> out;
  std::size_t bytes = 0;
  while (!frames_.empty() && out.size() < kMaxTaken &&
         (out.empty() || bytes + frames_.front().frame->size() <= most)) {
    waiting_ -= counted(frames_.front());
    bytes += frames_.front().frame->size();
    out.push_back(std::move(frames_.front().frame));
    frames_.pop_front();
  }
  return out;
}

void Outbox::drop_floor() {
  std::erase_if(frames_, [this](const Item& item) {
    const bool drop = item.kind == Kind::floor || item.kind == Kind::snapshot;
    if (drop) waiting_ -= counted(item);
    return drop;
  });
}

}  // namespace squeezeout
