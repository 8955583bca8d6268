#include "client/look/ring.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace squeezeout::look {
namespace {

constexpr float kNotBeside = 1e5F;

// How far `to` is in that direction, what stands in the same row or column before all else; below 0: it is not there at all.
float distance(Rect from, Rect to, int arrow) {
  const Point a = from.centre(), b = to.centre();
  const float x = b.x - a.x, y = b.y - a.y;
  const bool level = arrow == kLeft || arrow == kRight;
  const float ahead = level ? (arrow == kRight ? x : -x) : (arrow == kDown ? y : -y);
  const bool beside = level ? to.y < from.bottom() && from.y < to.bottom()
                            : to.x < from.right() && from.x < to.right();
  if (ahead < 1 || (!beside && ahead < std::abs(level ? y : x) * 0.3F)) return -1;
  const float aside = std::abs(level ? y : x);
  return beside ? ahead + 0.2F * aside : kNotBeside + ahead + 2 * aside;
}

}  // namespace

bool is_arrow(int key) { return key == kLeft || key == kRight || key == kUp || key == kDown; }

std::string walk(const Frame& frame, const std::string& from, int arrow) {
  const auto& presses = frame.presses;
  if (presses.empty()) return "";
  const auto here =
      std::find_if(presses.begin(), presses.end(), [&](const Press& p) { return p.id == from; });
  if (here == presses.end()) {
    const auto first =
        std::find_if(presses.begin(), presses.end(), [](const Press& p) { return p.keys.empty(); });
    return first == presses.end() ? presses.front().id : first->id;
  }
  float nearest = std::numeric_limits<float>::max();
  std::string to = from;
  for (const Press& p : presses) {
    const float far = distance(here->at, p.at, arrow);
    if (&p == &*here || far < 0 || far >= nearest) continue;
    nearest = far;
    to = p.id;
  }
  return to;
}

}  // namespace squeezeout::look
