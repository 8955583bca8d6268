#include "client/alarm/alarm.h"

#include <algorithm>

namespace squeezeout::alarm {
namespace {

// The glue-up that a press is about, when it can end an alarm: 0 for all else.
GlueUpId ended_by(const Body& asked) {
  if (const auto* c = std::get_if<ClampsOn>(&asked)) return c->glue_up;
  if (const auto* c = std::get_if<ClampsOff>(&asked)) return c->glue_up;
  if (const auto* c = std::get_if<Spoiled>(&asked)) return c->glue_up;
  if (const auto* c = std::get_if<Undo>(&asked)) return c->glue_up;
  return {};
}

int chimes_until(Instant since, Instant now) {
  if (now < since) return 0;
  return static_cast<int>(
      std::min<std::int64_t>(kChimes, 1 + (now - since) / std::chrono::seconds{kChimeAgain}));
}

}  // namespace

bool ringing(const Told& told) { return !told.alarms.empty() && at_risk(told.alarms.front()); }
bool too_many(const Told& told) { return told.lately > kMost; }

Told Alarms::look(const Heard& heard) {
  if (!heard.floor.shop || heard.link == Link::connecting) return {};
  const std::vector<Alarm> found = reasons(heard);
  set_back(heard.now);
  remember(heard, found);
  Told told;
  for (const Alarm& a : found)
    if (!silent(known_.at({a.glue_up, a.reason}), heard)) told.alarms.push_back(a);
  told.lately = static_cast<int>(begun_.size());
  told.sound = sound(told, heard.now);
  return told;
}

void Alarms::set_back(Instant now) {
  if (sounded_ && now < *sounded_) sounded_.reset();
  for (Instant& begun : begun_) begun = std::min(begun, now);
  for (auto& [key, state] : known_)
    if (state.pressed) state.pressed = std::min(*state.pressed, now);
}

void Alarms::remember(const Heard& heard, const std::vector<Alarm>& found) {
  std::map<Key, State> kept;
  for (const Alarm& a : found) {
    const Key key{a.glue_up, a.reason};
    if (const auto known = known_.find(key); known != known_.end()) {
      kept.insert(*known);
      continue;
    }
    State state{.since = looked_ ? heard.now : a.limit};
    if (!looked_) state.chimes = chimes_until(state.since, heard.now);
    kept.emplace(key, state);
    begun_.push_back(heard.now);
  }
  // While nobody is heard, nobody is known to want anything: that is no end of the reason.
  if (heard.link == Link::not_live)
    for (const auto& [key, state] : known_)
      if (key.reason == Reason::clamps) kept.emplace(key, state);
  known_ = std::move(kept);
  looked_ = true;
  while (!begun_.empty() && heard.now - begun_.front() > kLately) begun_.pop_front();
}

bool Alarms::silent(State& state, const Heard& heard) const {
  if (state.pressed && heard.facts_waiting == 0 && heard.now - *state.pressed >= kPressHolds)
    state = {.since = heard.now};
  return state.quiet || state.pressed;
}

// Chimes that have come are counted whether they are heard or not, so that none is ever made up for.
bool Alarms::chime_due(const Told& told, Instant now) {
  bool due = false;
  for (const Alarm& a : told.alarms) {
    if (a.reason != Reason::clamps) continue;
    State& state = known_.at({a.glue_up, a.reason});
    const int come = chimes_until(state.since, now);
    due = due || come > state.chimes;
    state.chimes = std::max(state.chimes, come);
  }
  return due;
}

Sound Alarms::sound(const Told& told, Instant now) {
  const bool due = chime_due(told, now);
  const auto quiet_for = [&](Seconds s) { return !sounded_ || now - *sounded_ >= s; };
  Sound begins = Sound::none;
  if (ringing(told)) {
    if (quiet_for(kTwoTonesEvery)) begins = Sound::two_tones;
  } else if (due && !too_many(told) && quiet_for(kMerged)) {
    begins = Sound::chime;
  }
  if (begins != Sound::none) sounded_ = now;
  return begins;
}

void Alarms::press(const Body& asked, Instant now) {
  const GlueUpId id = ended_by(asked);
  if (!id) return;
  for (auto& [key, state] : known_)
    if (key.glue_up == id) state.pressed = now;
}

void Alarms::quiet() {
  for (auto& [key, state] : known_) state.quiet = true;
}

}  // namespace squeezeout::alarm
