#include "client/sync/replica.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "client/sync/overload.h"
#include "common/floor/apply.h"

namespace squeezeout {
namespace {

std::int64_t milliseconds(Instant t) {
  return std::chrono::duration_cast<std::chrono::milliseconds>(t.time_since_epoch()).count();
}

// The time at which a fact happened, when the command carries one.
Instant* time_of(Body& body) {
  return std::visit(Overload{[](ClampsOn& c) { return &c.at; }, [](ClampsOff& c) { return &c.at; },
                             [](Scraped& c) { return &c.at; }, [](Spoiled& c) { return &c.at; },
                             [](auto&) { return static_cast<Instant*>(nullptr); }},
                    body);
}

// The server took no decision and says so: a fact is worth another try.
bool passing(ErrorCode code) {
  return code == ErrorCode::busy || code == ErrorCode::read_only || code == ErrorCode::going_down;
}

}  // namespace

bool is_fact(const Body& body) {
  return std::visit(
      Overload{[](const ClampsOn&) { return true; }, [](const ClampsOff&) { return true; },
               [](const Scraped&) { return true; }, [](const Late&) { return true; },
               [](const Spoiled&) { return true; }, [](const GearBroken&) { return true; },
               [](const ClimateReading&) { return true; }, [](const auto&) { return false; }},
      body);
}

void Replica::connected(Steady) {
  connected_ = true;
  hello_due_ = true;
  welcomed_ = false;
  ++generation_;
}

void Replica::disconnected(Steady) {
  connected_ = false;
  hello_due_ = false;
  welcomed_ = false;
  for (Pending& p : pending_) p.sent = false;
  ++generation_;
}

void Replica::received(const ServerFrame& frame, Steady now) {
  heard_ = now;
  std::visit(
      Overload{[&](const Welcome& f) { welcome(f, now); }, [&](const Snapshot& f) { snapshot(f); },
               [&](const Delta& f) { delta(f, now); }, [&](const Answer& f) { answer(f); },
               [&](const Beat& f) { beat(f, now); }, [&](const Error& f) { error(f); }},
      frame);
}

std::vector<ClientFrame> Replica::take_outgoing() {
  std::vector<ClientFrame> out;
  if (std::exchange(hello_due_, false)) {
    Hello hello{.protocol = kProtocol, .device = device_, .store = {}, .revision = 0};
    if (have_floor_ && !out_of_step_) {
      hello.store = store_;
      hello.revision = revision_;
    }
    out.push_back(hello);
  }
  if (!welcomed_) return out;
  for (Pending& p : pending_)
    if (!std::exchange(p.sent, true)) out.push_back(Asked{p.id, p.body});
  return out;
}

CommandId Replica::ask(CommandId id, Body body, Steady now) {
  ++generation_;
  const Link heard = link(now);
  const bool live = connected_ && (heard == Link::live || heard == Link::late);
  if (!is_fact(body) && !live) {
    replies_.push_back({id, std::move(body), Reply::How::lost, {}, {}, {}});
    return id;
  }
  pending_.push_back({.id = id, .body = std::move(body), .pressed = now});
  stamp(pending_.back());
  return id;
}

std::vector<Reply> Replica::take_replies() { return std::exchange(replies_, {}); }

std::int64_t Replica::now_ms(Steady now) const {
  if (!server_ms_at_) return server_ms_;
  const std::chrono::duration<double, std::milli> gone = now - *server_ms_at_;
  return server_ms_ + std::llround(gone.count() * clock_speed_);
}

Instant Replica::now(Steady now) const {
  return std::chrono::floor<Seconds>(
      std::chrono::sys_time<std::chrono::milliseconds>{std::chrono::milliseconds{now_ms(now)}});
}

Link Replica::link(Steady now) const {
  if (!heard_) return Link::connecting;
  if (now - *heard_ <= kLate) return Link::live;
  return now - *heard_ <= kNotLive ? Link::late : Link::not_live;
}

std::chrono::seconds Replica::silent_for(Steady now) const {
  return heard_ ? std::chrono::floor<Seconds>(now - *heard_) : Seconds{0};
}

std::size_t Replica::facts_waiting() const {
  return static_cast<std::size_t>(std::count_if(pending_.begin(), pending_.end(),
                                                [](const Pending& p) { return is_fact(p.body); }));
}

// ---- frames ----

void Replica::welcome(const Welcome& frame, Steady now) {
  const bool moved = store_ && *store_ != frame.store;
  if (moved) {
    lose_pending();
    for (Answered& a : std::exchange(answered_, {})) replies_.push_back(std::move(a.reply));
  }
  // A store that has gone back behind this mirror was restored: only a snapshot can follow.
  if (moved || frame.revision < revision_) out_of_step_ = have_floor_;
  store_ = frame.store;
  server_version_ = frame.server_version;
  promised_ = frame.revision;
  clock_speed_ = frame.clock_speed;
  set_clock(frame.server_time_ms, now);
  for (Pending& p : pending_) stamp(p);
  complaint_.reset();
  welcomed_ = true;
  ++generation_;
}

void Replica::snapshot(const Snapshot& frame) {
  floor_ = frame.floor;
  revision_ = frame.revision;
  since_ = frame.since;
  have_floor_ = true;
  out_of_step_ = false;
  release_answers();
  ++generation_;
}

void Replica::delta(const Delta& frame, Steady now) {
  if (have_floor_ && !out_of_step_ && frame.revision <= revision_) return;  // held already
  if (!have_floor_ || out_of_step_ || frame.revision != revision_ + 1) {
    out_of_step_ = true;
    return;
  }
  for (const Event& event : frame.events) apply(floor_, event);
  revision_ = frame.revision;
  // The server's clock has reached what it just decided at; on a fast clock that tells more than
  // the last beat.
  if (now_ms(now) < milliseconds(frame.at)) set_clock(milliseconds(frame.at), now);
  release_answers();
  ++generation_;
}

void Replica::answer(const Answer& frame) {
  std::optional<Pending> asked = take_pending(frame.command);
  if (!asked) return;
  const auto how = frame.refusal ? Reply::How::refused : Reply::How::done;
  answered_.push_back(
      {{asked->id, std::move(asked->body), how, frame.refusal, {}, frame.glue_up}, frame.revision});
  release_answers();
  ++generation_;
}

void Replica::beat(const Beat& frame, Steady now) {
  set_clock(frame.server_time_ms, now);
  for (Pending& p : pending_)
    if (std::exchange(p.put_off, false)) p.sent = false;
}

void Replica::error(const Error& frame) {
  ++generation_;
  if (!frame.command) {
    complaint_ = frame;
    return;
  }
  const auto it = std::find_if(pending_.begin(), pending_.end(),
                               [&](const Pending& p) { return p.id == *frame.command; });
  if (it == pending_.end()) return;
  if (is_fact(it->body) && passing(frame.code)) {
    it->put_off = true;
    return;
  }
  replies_.push_back({it->id, std::move(it->body), Reply::How::error, {}, frame.text, {}});
  pending_.erase(it);
}

// ---- parts ----

void Replica::set_clock(std::int64_t server_ms, Steady now) {
  server_ms_ = server_ms;
  server_ms_at_ = now;
}

void Replica::stamp(Pending& pending) const {
  Instant* at = time_of(pending.body);
  if (at && *at == kAtServer && server_ms_at_) *at = now(pending.pressed);
}

void Replica::lose_pending() {
  for (Pending& p : std::exchange(pending_, {}))
    replies_.push_back({p.id, std::move(p.body), Reply::How::lost, {}, {}, {}});
}

void Replica::release_answers() {
  while (!answered_.empty() && answered_.front().revision <= revision_) {
    replies_.push_back(std::move(answered_.front().reply));
    answered_.pop_front();
  }
}

std::optional<Replica::Pending> Replica::take_pending(CommandId id) {
  const auto it =
      std::find_if(pending_.begin(), pending_.end(), [&](const Pending& p) { return p.id == id; });
  if (it == pending_.end()) return std::nullopt;
  Pending taken = std::move(*it);
  pending_.erase(it);
  return taken;
}

}  // namespace squeezeout
