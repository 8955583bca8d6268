#include "common/trade/cure.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "common/base/check.h"
#include "common/trade/evaporation.h"

namespace squeezeout {
namespace {

constexpr Celsius kColdest{-60};         // colder than any air that is taken
constexpr Celsius kRoom{20};             // where the times of a sheet hold
constexpr double kUsualActivation = 55;  // kJ/mol, where the sheet is silent
constexpr double kPanel = 15 * 60;       // s
constexpr double kPanelKelvin = 4;

// How fast something that takes `scale` dwells gets on at a temperature, at most `most` a second.
struct Rate {
  const AdhesiveSheet& sheet;
  double scale = 1;
  double most = std::numeric_limits<double>::infinity();
  enum class Below { slow, stands } below_floor = Below::slow;

  double operator()(Celsius wood) const {
    if (below_floor == Below::stands && wood < sheet.floor) return 0;
    return std::min(most, scale / dwell_seconds(sheet, wood));
  }
  // The nearest temperature on the way from a to b at which the rate has a corner; b: none.
  double corner(double a, double b) const {
    double nearest = b;
    const auto look = [&](double t) {
      constexpr double kApart = 1e-9;
      if (a < b ? t > a + kApart && t < nearest - kApart : t < a - kApart && t > nearest + kApart)
        nearest = t;
    };
    look(sheet.floor.value);
    look(kRoom.value);  // where the wait stops to shrink
    if (!(sheet.activation_kj > 0))
      for (const DwellPoint& p : sheet.dwell) look(p.wood.value);
    return nearest;
  }
};

// Gauss and Legendre's five points, for [a, a + length].
double panel(const Rate& rate, const WoodCourse::Stretch& wood, double a, double length) {
  struct Node {
    double at, weight;
  };
  static constexpr std::array<Node, 5> kNodes{{{0.0, 128.0 / 225},
                                               {-0.5384693101056831, 0.47862867049936647},
                                               {0.5384693101056831, 0.47862867049936647},
                                               {-0.9061798459386640, 0.23692688505618908},
                                               {0.9061798459386640, 0.23692688505618908}}};
  double sum = 0;
  for (const Node& n : kNodes) sum += n.weight * rate(wood.after(a + length * (1 + n.at) / 2));
  return sum * length / 2;
}

// How far from `a` one panel may reach, at most to `end`: short where the wood swings, not across a corner of the rate.
double panel_length(const Rate& rate, const WoodCourse::Stretch& wood, double a, double end) {
  const double grain = wood.swing == 0 ? kPanel : std::max(wood.time_constant_s, a / 2);
  double length = std::min({end - a, kPanel, grain});
  const double from = wood.after(a).value;
  double to = wood.after(a + length).value;
  for (; std::abs(to - from) > kPanelKelvin; to = wood.after(a + length).value) length /= 2;
  const double corner = rate.corner(from, to);
  if (corner == to) return length;
  double before = 0, beyond = length;
  while (beyond - before > 1e-6) {
    const double mid = (before + beyond) / 2;
    ((wood.after(a + mid).value < corner) == (from < corner) ? before : beyond) = mid;
  }
  return beyond;
}

// Where in the panel the rate has added up to `need`, which the whole panel reaches.
double within_panel(const Rate& rate, const WoodCourse::Stretch& wood, double a, double length,
                    double whole, double need) {
  double x = length * need / whole;
  for (int i = 0; i < 4; ++i) {
    const double off = panel(rate, wood, a, x) - need;
    x = std::clamp(x - off / rate(wood.after(a + x)), 0.0, length);
  }
  return x;
}

struct Walked {
  double sum = 0, seconds = 0;
};

// Adds the rate up along the wood, until it comes to `sum_most` or `seconds_most` have gone.
Walked walk(const Rate& rate, const WoodCourse& wood, Instant begin, Seconds seconds_most,
            double sum_most) {
  const double last = static_cast<double>(seconds_most.count());
  Walked done;
  for (Instant t = begin; done.seconds < last;) {
    const WoodCourse::Stretch stretch = wood.stretch(t);
    const bool ends = stretch.until != kNever && stretch.until - begin < seconds_most;
    const double end =
        (ends ? static_cast<double>((stretch.until - begin).count()) : last) - done.seconds;
    if (stretch.constant()) {
      const double speed = rate(stretch.after(0));
      const double need = (sum_most - done.sum) / speed;
      if (need <= end) return {sum_most, done.seconds + need};
      done.sum += speed * end;
    } else {
      for (double a = 0; a < end;) {
        const double length = panel_length(rate, stretch, a, end);
        const double whole = panel(rate, stretch, a, length);
        if (done.sum + whole >= sum_most) {
          return {sum_most, done.seconds + a +
                                within_panel(rate, stretch, a, length, whole, sum_most - done.sum)};
        }
        done.sum += whole;
        a = end - a - length < 1e-6 ? end : a + length;
      }
    }
    done.seconds += end;
    t = stretch.until;
  }
  return done;
}

Seconds down(Seconds time, double factor) {
  return Seconds{static_cast<Seconds::rep>(std::floor(static_cast<double>(time.count()) * factor))};
}

// How much longer than at 20 C a reacting glue stays workable.
double reaction_multiplier(const AdhesiveSheet& sheet, Celsius at) {
  const double kj = sheet.activation_kj > 0 ? sheet.activation_kj : kUsualActivation;
  return std::clamp(reaction_ratio(kj, at, kRoom), kOpenLeast, kOpenMost);
}

}  // namespace

double cured(const AdhesiveSheet& sheet, const WoodCourse& wood, Span span) {
  return walk(Rate{sheet}, wood, span.begin, span.length(), std::numeric_limits<double>::infinity())
      .sum;
}

Result<Seconds, TooCold> dwell_from(const AdhesiveSheet& sheet, const WoodCourse& wood,
                                    Instant open_begin, Instant clamped_begin) {
  CHECK(open_begin <= clamped_begin);
  const Walked cure = walk(Rate{sheet}, wood, clamped_begin, kMaxClaim, 1);
  const Seconds dwell = std::min(whole_seconds_up(cure.seconds), kMaxClaim);
  const Span forms{open_begin, clamped_begin + dwell};
  if (const auto cold = wood.first_below(forms, sheet.floor)) {
    return Unexpected{TooCold{.sheet = sheet.id,
                              .wood = wood.coldest(forms),
                              .floor = sheet.floor,
                              .at = *cold,
                              .until = wood.warm_again(*cold, sheet.floor)}};
  }
  return dwell;
}

Seconds dwell_running(const AdhesiveSheet& sheet, const WoodCourse& wood, Instant clamped_begin) {
  AdhesiveSheet known = sheet;
  if (sheet.activation_kj > 0) known.floor = kColdest;
  const Rate rate{.sheet = known, .below_floor = Rate::Below::stands};
  const Walked cure = walk(rate, wood, clamped_begin, kMaxClaim, 1);
  return cure.sum < 1 ? kMaxClaim : std::min(whole_seconds_up(cure.seconds), kMaxClaim);
}

Seconds wait_from(const AdhesiveSheet& sheet, Seconds wait, const WoodCourse& wood,
                  Instant clamped_begin) {
  const double need = static_cast<double>(wait.count());
  const Rate rate{sheet, dwell_seconds(sheet, kRoom), 1};
  const Walked waited = walk(rate, wood, clamped_begin, std::max(wait, kMaxClaim), need);
  return std::max(wait, whole_seconds_up(waited.seconds));
}

Seconds open_time_at(const AdhesiveSheet& sheet, Celsius wood, Celsius air, Percent humidity) {
  switch (sets(sheet.chemistry)) {
    case Sets::by_water: {
      const auto held = [](Celsius t) {
        return std::clamp(t, kEvaporationLeast, kEvaporationMost);
      };
      const auto longer =
          open_multiplier(held(wood), held(air), std::clamp(humidity, Percent{0}, Percent{100}));
      CHECK(longer);
      const bool gels = sheet.chemistry == Chemistry::hide_hot;
      return down(sheet.open, gels ? std::min(1.0, *longer) : *longer);
    }
    case Sets::by_reaction:
      return down(sheet.open, reaction_multiplier(sheet, wood));
    case Sets::by_solvent:
      return sheet.open;
  }
  CHECK(false);
  return sheet.open;
}

Seconds working_life_at(const AdhesiveSheet& sheet, Celsius air) {
  if (!mixed(sheet.chemistry)) return sheet.working_life;
  return down(sheet.working_life, reaction_multiplier(sheet, air));
}

}  // namespace squeezeout
