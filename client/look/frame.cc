#include "client/look/frame.h"

namespace squeezeout::look {

bool same_picture(const Frame& a, const Frame& b) {
  if (a.width != b.width || a.height != b.height || a.marks != b.marks) return false;
  return std::equal(a.presses.begin(), a.presses.end(), b.presses.begin(), b.presses.end(),
                    [](const Press& x, const Press& y) {
                      return x.id == y.id && x.label == y.label && x.at == y.at && x.keys == y.keys;
                    });
}

}  // namespace squeezeout::look
