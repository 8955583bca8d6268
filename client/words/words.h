#pragma once
// Words: facts of the floor as sentences that a builder would say. Used by every screen and by the command line.
//   Rules    clock time first, countdown second; a colon means clock time only; durations carry units (1 m 47 s, 1 h 08);
//            errors say what, why, next; plain words; times are "can", never "must"; the shop's zone
//   Units    as the shop reads them (Display): 24 or 12 hours, mm or inches, Celsius or Fahrenheit
//   Whole    every refusal, fact, snag, phase and command has its words: one without them does not compile

#include <string>
#include <string_view>
#include <vector>

#include "client/sync/replica.h"
#include "common/floor/ask.h"

namespace squeezeout::words {

struct Context {
  const Floor& floor;
  Instant now{};
};

// "15:40" or "3:40 pm" today, "Fri 9:30" within a week, "Fri 4 Dec 9:30" later; on a DST night "1:30 (2nd)".
std::string clock(const Context& c, Instant t);
std::string clock_only(const Context& c, Instant t);  // always "15:40"; "3:40 pm"
std::string day(const Context& c, Instant t);         // "Thu 26 Nov"
std::string length(Seconds s);                  // "47 s", "12 min", "1 h 08", "19 h", "3 d 4 h"
std::string countdown(Seconds s);               // "1 m 47 s", "28 min", "1 h 08"
std::string exact(Seconds s);                   // "4 min", "3 m 40 s" under ten minutes: to compare
std::string date(const Context& c, Instant t);  // "Thu 26 Nov", "Wed 26 Nov 2025"
std::string degrees(const Context& c, Celsius t);  // "13 °C", "9.4 °C"; "48.9 °F"
std::string degrees_below(const Context& c,
                          Celsius t);  // the same, rounded down: never said to be what it lacks
std::string degrees_whole(const Context& c, Celsius t);         // "18 °C"; "64 °F"
std::string millimetres(const Context& c, Millimetre m);        // "60 mm"; "2 3/8 in"
std::string millimetres_above(const Context& c, Millimetre m);  // rounded up: no less would do
std::string small(const std::string& name);  // "Deep clamp" -> "deep clamp"; "PVA", "No. 14" stay
std::string plural(const std::string& one);  // "deep clamps", "radius dishes 15 ft"
std::string number(int n, const std::string& one);  // "1 deep clamp", "10 deep clamps"
std::string gear(const Context& c, const std::vector<Held>& held);  // "14 spool clamps, mould 3"
std::string title(const Context& c, const GlueUp& g);               // "No. 14 · bridge"
std::string glue(const Context& c, const GlueUp& g);                // "hide glue", "no glue"
std::string builder(const Context& c, BuilderId id);
std::string bench(const Context& c, BenchId id);
std::string initials(const Context& c, BuilderId id);  // "I."
std::string phase(
    const Context& c,
    const GlueUp&
        g);  // "glue wet, clamps on by 14:14", "off 15:40", "wait till Fri 9:30", "ready: scrape"
std::string recipe(const Context& c, RecipeId id);  // "bridge"
std::string slot(const Context& c,
                 const PhaseTimes& t);  // "Start 15:05, off about 16:10, ready Fri 9:30."
std::string_view progress_word(
    Progress p);  // "reserved", "open", "clamped"...: the glossary's word
std::string holder(const Context& c, const HeldBy& h);  // "Ida has 6 till 15:40 (linings)"
std::string need(const Context& c,
                 const GearNeed& need);  // "12 clamps, at least 100 mm opening, 60 mm throat"
std::string fact(const Context& c,
                 const Fact& f);  // "Deep clamps: 4 of 12 free; Ida has 6 till 15:40."
std::vector<std::string> why(
    const Context& c, const std::vector<Hindrance>& h);  // one line a fact, merged, at most 6
std::string snag(const Context& c, const GlueUp& g);     // "lost its place: 2 deep clamps broke"
// What the weather did to its plan; empty: nothing that is still to be told.
//   "dwell 30 -> 60 min: 13 °C", "moved 8:30 -> 9:10: Ida's glue-up stays clamped longer (linings), 13 °C";
//   glued below its floor: "dwell 30 -> 60 min: 8 °C, below its floor of 10 °C: the film may not form, test it before you trust it"
std::string weather(const Context& c, const GlueUp& g);
std::string weather_short(const Context& c, const GlueUp& g);  // "dwell 30 -> 60 min"

// What was asked and was refused, as what / why / next.
struct Told {
  std::string what;  // "Not reserved."
  std::string why;   // "Bench 3 took 4 of those clamps 2 s ago."
  std::string next;  // "15:05 can be had."
};
Told refusal(const Context& c, const Body& asked, const Refusal& r);
// The server is back: "Live again.", "Live. 2 presses sent.", "Live. 2 presses sent, 1 needs you."
std::string back_live(int sent, int needs_you);
std::string done(const Context& c, const Body& asked,
                 GlueUpId g);  // "Reserved. Start 15:05, off about 16:10."

}  // namespace squeezeout::words
