#include "client/panels/pages.h"

#include <fmt/format.h>

namespace squeezeout::panels {

Page page_of(int all, int fitting, int page) {
  fitting = std::max(1, fitting);
  Page p;
  p.pages = std::max(1, (all + fitting - 1) / fitting);
  p.page = std::clamp(page, 0, p.pages - 1);
  p.first = p.page * fitting;
  p.count = std::min(fitting, all - p.first);
  return p;
}

void page_keys(look::Canvas& canvas, look::Rect& strip, Page page, int all) {
  if (page.pages < 2) return;
  const int beyond = all - page.first - page.count;
  const look::Rect next = strip.cut_right(canvas.px(24));
  strip.cut_right(canvas.gap());
  const look::Rect back = strip.cut_right(canvas.px(24));
  strip.cut_right(canvas.gap());
  canvas.button(next, {.id = "page.next",
                       .label = beyond > 0 ? fmt::format("+{} more", beyond) : "last",
                       .key_name = "N",
                       .keys = {'N'},
                       .intent = Turn{1},
                       .look = beyond > 0 ? look::Look::normal : look::Look::off});
  canvas.button(back, {.id = "page.back",
                       .label = "back",
                       .key_name = "P",
                       .keys = {'P'},
                       .intent = Turn{-1},
                       .look = page.page > 0 ? look::Look::normal : look::Look::off});
}

}  // namespace squeezeout::panels
