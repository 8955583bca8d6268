#pragma once
// Pages: lists do not scroll; what does not fit is on the next page, and how much that is, is said.

#include "client/view/scene.h"

namespace squeezeout::panels {

struct Page {
  int first = 0, count = 0, pages = 1, page = 0;
  int asked = 0;  // the view's, which may lie beyond the last: keys turn from the page shown
};
// `all` things, `fitting` a page; a page beyond the last shows the last.
[[nodiscard]] Page page_of(int all, int fitting, int page);

// Things of unequal height, as many a page as stand below each other in `room`, one at least.
[[nodiscard]] Page page_of(const std::vector<float>& heights, float room, int page);

// Two keys, "back" and "+N": only when there is more than one page. Takes its place from the right of `strip`.
void page_keys(look::Canvas& canvas, look::Rect& strip, Page page, int all);

}  // namespace squeezeout::panels
