#include "client/look/frame.h"

namespace squeezeout::look {

bool same_picture(const Frame& a, const Frame& b) {
  if (a.width != b.width || a.height != b.height || a.marks != b.marks || a.typing != b.typing)
    return false;
  return std::equal(a.presses.begin(), a.presses.end(), b.presses.begin(), b.presses.end(),
                    [](const Press& x, const Press& y) {
                      return x.id == y.id && x.label == y.label && x.at == y.at && x.keys == y.keys;
                    });
}

Instant instant_at(const TimeField& field, float x) {
  const auto& knots = field.knots;
  CHECK(knots.size() >= 2);
  std::size_t i = 1;
  while (i + 1 < knots.size() && knots[i].x < x) ++i;
  const TimeField::Knot &a = knots[i - 1], &b = knots[i];
  const double part = b.x > a.x ? static_cast<double>((x - a.x) / (b.x - a.x)) : 0.0;
  const double seconds = static_cast<double>((b.at - a.at).count()) * part;
  return a.at + Seconds{static_cast<long>(seconds)};
}

}  // namespace squeezeout::look
