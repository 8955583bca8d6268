#pragma once
// Scene: all that a frame is laid out from. A model is a function Scene -> Frame; the same scene gives the same frame.

#include <string>

#include "client/alarm/alarm.h"
#include "client/look/canvas.h"
#include "client/sync/replica.h"
#include "client/view/quotes.h"
#include "client/view/view.h"
#include "client/words/words.h"

namespace squeezeout {

enum class Loudspeaker { not_known, there, none };

struct Scene {
  const Floor& floor;
  Instant now{};
  Link link = Link::live;
  Seconds silent{};               // since the server was last heard
  std::size_t facts_waiting = 0;  // presses that are still to be sent
  std::string trouble;            // why there is no connection
  const View& view;
  const look::Scale& scale;
  const look::Letters& letters;
  Quotes& quotes;
  std::uint64_t revision = 0;                                // of the floor
  const plan_ahead::Report& plan = plan_ahead::kNothing;     // a repair, a replan
  const plan_ahead::Report& what_if = plan_ahead::kNothing;  // beside it
  alarm::Told alarms{};                                      // of this bench
  Loudspeaker loudspeaker = Loudspeaker::not_known;          // whether an alarm can be heard here
  float width = 1920, height = 1080;

  words::Context context() const { return {floor, now}; }
  bool stale() const { return link == Link::not_live || link == Link::connecting; }
  Instant last_heard() const { return now - silent; }
};

// How a glue-up looks in the four channels: lightness, fill, icon, word.
struct PhaseLook {
  look::Role ground = look::Role::lane;   // lightness
  look::Fill pattern = look::Fill::none;  // fill, over the ground
  look::Role pattern_ink = look::Role::hatch;
  look::Role on = look::Role::text;  // letters and icon
  look::Glyph glyph = look::Glyph::drop;
  enum class Icon { no, yes } icon = Icon::no;
};
[[nodiscard]] PhaseLook look_of(Phase phase);

// The square with the phase in it: at the head of rows. Amber when over time.
void swatch(look::Canvas& canvas, look::Rect at, Phase phase, const GlueUp& g, const Scene& scene);

// Whether the time of somebody else's joint is only a plan, for nobody has been heard.
[[nodiscard]] bool own(const Scene& scene, const GlueUp& g);
// The weather moved its start, and nobody has pressed anything on it since.
[[nodiscard]] bool moved_by_weather(const GlueUp& g);
// A joint at risk, or clamps on past their time: what amber is for.
[[nodiscard]] bool past_due(const GlueUp& g, Instant now);
// The second column: "28 min", "14 min over", "glue wet"; "planned" or "not known" when not live and not own.
struct Remaining {
  std::string words;
  enum class Tone { plain, quiet, loud } tone = Tone::plain;
};
[[nodiscard]] Remaining remaining(const Scene& scene, const GlueUp& g);
// The instant that a row shows: when its clamps come off, or when it may be worked.
[[nodiscard]] Instant shown_time(const GlueUp& g, Instant now);

}  // namespace squeezeout
