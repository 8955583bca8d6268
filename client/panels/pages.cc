#include "client/panels/pages.h"

#include <fmt/format.h>

#include "client/panels/room.h"
#include "client/words/say.h"

namespace squeezeout::panels {

Page page_of(int all, int fitting, int page) {
  fitting = std::max(1, fitting);
  Page p;
  p.pages = std::max(1, (all + fitting - 1) / fitting);
  p.page = std::clamp(page, 0, p.pages - 1);
  p.asked = page;
  p.first = p.page * fitting;
  p.count = std::min(fitting, all - p.first);
  return p;
}

Page page_of(const std::vector<float>& heights, float room, int page) {
  std::vector<int> firsts{0};
  float used = 0;
  for (int i = 0; i < static_cast<int>(heights.size()); ++i) {
    const float tall = heights[static_cast<std::size_t>(i)];
    if (used > 0 && used + tall > room) firsts.push_back(i), used = 0;
    used += tall;
  }
  Page p;
  p.pages = static_cast<int>(firsts.size());
  p.page = std::clamp(page, 0, p.pages - 1);
  p.asked = page;
  firsts.push_back(static_cast<int>(heights.size()));
  p.first = firsts[static_cast<std::size_t>(p.page)];
  p.count = firsts[static_cast<std::size_t>(p.page) + 1] - p.first;
  return p;
}

void page_keys(look::Canvas& canvas, look::Rect& strip, Page page, int all) {
  if (page.pages < 2) return;
  const int beyond = all - page.first - page.count;
  const bool few_words = narrow(canvas);
  const float width = std::max(canvas.touch(), canvas.px(few_words ? 16 : 24));
  const look::Rect next = strip.cut_right(width);
  strip.cut_right(canvas.gap());
  const look::Rect back = strip.cut_right(width);
  strip.cut_right(canvas.gap());
  canvas.button(next, {.id = "page.next",
                       .label = beyond <= 0 ? words::tr("last")
                                : few_words ? fmt::format("+{}", beyond)
                                            : words::say("+{} more", beyond),
                       .key_name = "N",
                       .keys = {'N'},
                       .intent = Turn{page.page + 1 - page.asked},
                       .look = beyond > 0 ? look::Look::normal : look::Look::off});
  canvas.button(back, {.id = "page.back",
                       .label = words::tr("back"),
                       .key_name = "P",
                       .keys = {'P'},
                       .intent = Turn{page.page - 1 - page.asked},
                       .look = page.page > 0 ? look::Look::normal : look::Look::off});
}

}  // namespace squeezeout::panels
