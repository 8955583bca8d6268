// How figures are written for the people of this shop. The shop's way beats the system's.
#include "client/setup/pages.h"
#include "client/words/say.h"

namespace squeezeout::setup {
namespace {

using look::Canvas;
using look::Look;
using look::Rect;
using What = draft::Edit::What;

struct Pair {
  const char* id;
  std::string label, one, other;
  bool first;  // the first is in force
  What turn;
  int key;
};

void pair(Canvas& canvas, Rect row, const Pair& p) {
  const auto key = [&](const char* end, const std::string& label, bool in_force, int letter) {
    const bool can = !in_force;
    return look::Button{.id = std::string(p.id) + end,
                        .label = label,
                        .key_name = letter_name(letter),
                        .keys = {letter},
                        .intent = can ? edit(p.turn) : Intent{Focus{}},
                        .look = in_force ? Look::chosen : Look::normal};
  };
  choice(canvas, labelled(canvas, row, p.label),
         {key(".one", p.one, p.first, p.key), key(".other", p.other, !p.first, p.key + 1)});
}

}  // namespace

void units_page(Canvas& canvas, const Scene& scene, Rect body) {
  const Display& d = shown_shop(scene).display;
  heading(canvas, heading_row(canvas, scene, body),
          {words::tr("How figures are written"),
           words::tr("On every screen of this shop, whatever a device is set to.")});
  Rect column = body;
  column.w = std::min(column.w, canvas.px(200));
  pair(canvas, row_of(canvas, column),
       {"units.clock", words::tr("Clock"), "14:30", "2:30 pm", d.clock == Display::Clock::hours_24,
        What::clock, 'A'});
  pair(canvas, row_of(canvas, column),
       {"units.lengths", words::tr("Lengths"), "150 mm", "5 7/8 in",
        d.lengths == Display::Lengths::mm, What::lengths, 'C'});
  pair(canvas, row_of(canvas, column),
       {"units.degrees", words::tr("Warmth"), "20 °C", "68 °F",
        d.degrees == Display::Degrees::celsius, What::degrees, 'E'});
}

}  // namespace squeezeout::setup
