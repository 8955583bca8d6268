#pragma once
// Alarms: what sounds at this bench now, and what the screen says meanwhile. An alarm needs an action; all else is silent.
//   At risk  a joint whose glue skins in 60 s (of a glue that stays open for less than two minutes: at half of it) with the
//            clamps not on, or a form that was hot for as long as its recipe says: two tones every 4 s until pressed
//   Due      clamps can come off and somebody wants them: one chime, again 5 and 10 min later, while the server is heard
//   Own      a glue-up's bench is this device's; one with no bench, or a device with none: its builder is the one here
//   Merged   a chime within 60 s of any sound is not sounded; more than 10 alarms in 10 min are one line, and no chimes
//   Pressed  the next key of its glue-up ends an alarm at once, also when the fact has still to be sent; should the floor know
//            nothing of it 10 s later, with nothing left to send, it begins anew. Quiet ends it until there is a new reason
//   Memory   begins empty: at the first look a joint at risk sounds, chimes whose time is past do not
//   Set back  when the shop's clock is, what began or was pressed ahead of it did so now
//   Pure     no screen, no sound, no clock: played and shown by others

#include <cstddef>
#include <deque>
#include <map>
#include <optional>
#include <vector>

#include "client/sync/replica.h"

namespace squeezeout::alarm {

enum class Reason { wet, form, clamps };
enum class Sound { none, two_tones, chime };

struct Alarm {
  GlueUpId glue_up;
  Reason reason = Reason::wet;
  Instant limit{};  // the glue skins; the form was hot for long enough; the clamps could come off
  GlueUpId wanted_by;  // whose gear those clamps are next
  friend bool operator==(const Alarm&, const Alarm&) = default;
};
[[nodiscard]] bool at_risk(const Alarm& a);  // the loud kind

struct Told {
  Sound sound = Sound::none;  // begins now, once
  std::vector<Alarm> alarms;  // not pressed, not quiet; most urgent first
  int lately = 0;             // how many began in the last 10 min
  friend bool operator==(const Told&, const Told&) = default;
};
[[nodiscard]] bool ringing(const Told& told);   // a joint is at risk: what the lamp is for
[[nodiscard]] bool too_many(const Told& told);  // one line stands for all

inline constexpr Seconds kOpenLeft{60};
inline constexpr Seconds kTwoTonesEvery{4};
inline constexpr Seconds kChimeAgain{Minutes{5}};
inline constexpr int kChimes = 3;
inline constexpr Seconds kMerged{60};
inline constexpr Seconds kLately{Minutes{10}};
inline constexpr int kMost = 10;
inline constexpr Seconds kPressHolds{10};
// Somebody wants the clamps who starts within this, and could not while they stay on.
inline constexpr Seconds kWantedWithin{Minutes{15}};

struct Heard {  // what this bench knows
  const Floor& floor;
  Instant now{};
  BenchId bench;
  BuilderId builder;
  Link link = Link::live;
  std::size_t facts_waiting = 0;
};

// The alarms that have a reason, whatever was pressed; most urgent first.
[[nodiscard]] std::vector<Alarm> reasons(const Heard& heard);

class Alarms {
 public:
  // As often as you like; a sound is told once.
  Told look(const Heard& heard);
  void press(const Body& asked, Instant now);
  void quiet();

 private:
  struct Key {
    GlueUpId glue_up;
    Reason reason;
    friend auto operator<=>(const Key&, const Key&) = default;
  };
  struct State {
    Instant since{};
    int chimes = 0;  // whose time has come
    bool quiet = false;
    std::optional<Instant> pressed{};
  };
  void set_back(Instant now);
  void remember(const Heard& heard, const std::vector<Alarm>& found);
  bool silent(State& state, const Heard& heard) const;
  Sound sound(const Told& told, Instant now);
  bool chime_due(const Told& told, Instant now);

  std::map<Key, State> known_;
  std::deque<Instant> begun_;
  std::optional<Instant> sounded_;  // last
  bool looked_ = false;             // at a floor
};

}  // namespace squeezeout::alarm
