#pragma once
// The left column of the reserve screen: which glue, ranked, with the reason that says most; gear as computed beside the
// recipe's count; times; cautions; and what holds an earlier start back.

#include "client/view/offer.h"

namespace squeezeout::bench {

void joint_column(look::Canvas& canvas, look::Rect at, const Scene& scene, const Recipe& recipe,
                  const Offer& offer);
// A sign and a sentence; takes its place from the top of `area`. Returns whether there was room.
enum class Room { enough, none };
Room caution_line(look::Canvas& canvas, look::Rect& area, const std::string& text, int lines);

}  // namespace squeezeout::bench
