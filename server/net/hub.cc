#include "server/net/hub.h"

#include <algorithm>
#include <utility>

namespace squeezeout {

SessionId Hub::join(Peer& peer) {
  clients_[++last_session_].peer = &peer;
  return last_session_;
}

void Hub::leave(SessionId session) { clients_.erase(session); }

void Hub::send(Client& client, const ServerFrame& frame) {
  client.peer->outbox().push(Outbox::Kind::reply, websocket_frame(encode(frame)));
  client.peer->wake();
}

void Hub::fail(Client& client, ErrorCode code, std::string text, std::optional<CommandId> command) {
  send(client, Error{code, std::move(text), command});
}

void Hub::frame(SessionId session, std::string_view bytes, Time now) {
  Client& client = clients_.at(session);
  auto decoded = decode_client_frame(bytes);
  if (!decoded) {
    const Malformed& no = decoded.error();
    return fail(client, no.code, no.what, no.command);
  }
  if (const auto* hello = std::get_if<Hello>(&*decoded)) return take(session, client, *hello);
  take(session, client, std::get<Asked>(std::move(decoded).value()), now);
}

void Hub::refuse(SessionId session, ErrorCode code, std::string text) {
  fail(clients_.at(session), code, std::move(text), std::nullopt);
}

void Hub::take(SessionId session, Client& client, const Hello& hello) {
  if (hello.protocol != kProtocol) {
    const bool newer = hello.protocol > kProtocol;
    return fail(client, newer ? ErrorCode::too_new : ErrorCode::too_old,
                "the client speaks protocol " + std::to_string(hello.protocol) + ", this server " +
                    std::to_string(kProtocol) + "; update the " + (newer ? "server" : "client"),
                std::nullopt);
  }
  if (client.state != State::new_here) {
    return fail(client, ErrorCode::malformed, "hello: came twice; send it first, and once",
                std::nullopt);
  }
  client.device = hello.device;
  const bool ours = hello.store && *hello.store == wiring_.store;
  const std::uint64_t oldest = revision_ - ring_.size();
  if (ours && hello.revision > 0 && hello.revision >= oldest && hello.revision <= revision_) {
    const auto missing = static_cast<std::ptrdiff_t>(revision_ - hello.revision);
    std::size_t bytes = 0;
    for (auto it = ring_.end() - missing; it != ring_.end(); ++it) bytes += (*it)->size();
    if (bytes <= kMaxQueue / 2) return resume(client, hello.revision);
  }
  ask_snapshot(session, client);
}

void Hub::resume(Client& client, std::uint64_t from) {
  welcome(client, revision_);
  for (auto it = ring_.end() - static_cast<std::ptrdiff_t>(revision_ - from); it != ring_.end();
       ++it) {
    client.peer->outbox().push(Outbox::Kind::floor, *it);
  }
  client.state = State::follows;
  client.peer->wake();
}

void Hub::ask_snapshot(SessionId session, Client& client) {
  client.state = State::waits_for_snapshot;
  wiring_.want_snapshot(session);
}

void Hub::welcome(Client& client, std::uint64_t revision) {
  client.welcomed = true;
  send(client, Welcome{kProtocol, wiring_.store, revision, wiring_.now_ms(), wiring_.clock_speed,
                       SQUEEZEOUT_VERSION});
}

void Hub::take(SessionId session, Client& client, Asked asked, Time now) {
  if (client.state == State::new_here) {
    return fail(client, ErrorCode::no_hello, "a command came before hello; say hello first",
                asked.id);
  }
  if (const auto no = submit(session, client.device, std::move(asked), now)) send(client, *no);
}

std::optional<Error> Hub::submit(SessionId session, DeviceId device, Asked asked, Time now) {
  const CommandId id = asked.id;
  if (going_down_)
    return Error{ErrorCode::going_down, "the server is stopping; send it again later", id};
  if (!allowed(device, now))
    return Error{ErrorCode::busy,
                 "more than 20 commands a second from this device; send it again later", id};
  if (!wiring_.submit({session, device, std::move(asked)}))
    return Error{ErrorCode::busy, "too many commands wait; send it again later", id};
  return std::nullopt;
}

SessionId Hub::ask(DeviceId device, Body body, Time now, Then then) {
  const SessionId session = ++last_session_;
  asked_.emplace(session, std::move(then));
  if (const auto no = submit(session, device, {wiring_.new_id(), std::move(body)}, now))
    answer_once(session, *no);
  return session;
}

void Hub::answer_once(SessionId asked, const ServerFrame& frame) {
  auto entry = asked_.extract(asked);
  if (!entry.empty()) entry.mapped()(frame);
}

bool Hub::allowed(DeviceId device, Time now) {
  if (wiring_.rate_limit == RateLimit::off) return true;
  const auto full = [now](const Bucket& b) {
    return std::chrono::duration<double>(now - b.at).count() * kRate + b.tokens >= kBurst;
  };
  auto [it, fresh] = buckets_.try_emplace(device, Bucket{kBurst, now});
  if (fresh && buckets_.size() > 4'096) {
    std::erase_if(buckets_,
                  [&](const auto& entry) { return entry.first != device && full(entry.second); });
  }
  Bucket& bucket = it->second;
  const double gone = std::chrono::duration<double>(now - bucket.at).count();
  bucket = {std::min(kBurst, bucket.tokens + gone * kRate), now};
  if (bucket.tokens < 1) return false;
  bucket.tokens -= 1;
  return true;
}

void Hub::committed(Output output, Time now) {
  std::vector<Bytes> fresh;
  for (const Published& published : output.published) {
    CHECK(published.revision == revision_ + 1);
    revision_ = published.revision;
    ring_.push_back(websocket_frame(*published.frame));
    ring_bytes_ += ring_.back()->size();
    fresh.push_back(ring_.back());
  }
  while (ring_.size() > kRingEntries || ring_bytes_ > kRingBytes) {
    ring_bytes_ -= ring_.front()->size();
    ring_.pop_front();
  }
  for (auto& [session, client] : clients_) {
    for (const Bytes& frame : fresh) send_floor(session, client, frame, now);
  }
  for (const Reply& reply : output.replies) {
    const auto it = clients_.find(reply.session);
    if (it == clients_.end()) {  // asked by HTTP; or gone, and will ask again with the same id
      if (asked_.contains(reply.session))
        answer_once(reply.session, decode_server_frame(*reply.frame).value());
      continue;
    }
    Client& client = it->second;
    client.peer->outbox().push(Outbox::Kind::reply, websocket_frame(*reply.frame));
    client.peer->wake();
    if (client.peer->outbox().waiting() > 2 * kMaxQueue) client.peer->hang_up(close_code::kPolicy);
  }
}

// A client that does not follow yet gets a snapshot that holds this, or was hung up.
void Hub::send_floor(SessionId session, Client& client, const Bytes& frame, Time now) {
  if (client.state != State::follows) return;
  Outbox& outbox = client.peer->outbox();
  outbox.push(Outbox::Kind::floor, frame);
  client.peer->wake();
  if (outbox.waiting() <= kMaxQueue) return;
  const bool again = client.overflowed && now - *client.overflowed < kTwice;
  client.overflowed = now;
  outbox.drop_floor();
  if (again) {
    client.state = State::waits_for_snapshot;
    client.peer->hang_up(close_code::kPolicy);
  } else {
    ask_snapshot(session, client);
  }
}

void Hub::snapshot(FreshSnapshot snapshot) {
  CHECK(snapshot.revision == revision_);  // the writer hands both out in one order
  const Bytes frame = websocket_frame(*snapshot.frame);
  for (const SessionId session : snapshot.sessions) {
    const auto it = clients_.find(session);
    if (it == clients_.end()) continue;
    Client& client = it->second;
    if (!client.welcomed) welcome(client, snapshot.revision);
    client.peer->outbox().push(Outbox::Kind::snapshot, frame);
    client.state = State::follows;
    client.peer->wake();
  }
}

void Hub::beat(Time now) {
  const Bytes frame = websocket_frame(encode(ServerFrame{Beat{revision_, wiring_.now_ms()}}));
  for (auto& [session, client] : clients_) send_floor(session, client, frame, now);
}

void Hub::going_down() {
  going_down_ = true;
  for (auto& [session, client] : clients_) {
    fail(client, ErrorCode::going_down, "the server is stopping; connect again later",
         std::nullopt);
    client.peer->hang_up(close_code::kGoingAway);
  }
}

}  // namespace squeezeout
