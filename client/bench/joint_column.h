#pragma once
// The left column of the reserve screen: which glue, ranked, with the reason that says most; times; gear as computed beside the
// recipe's count; cautions.

#include "client/view/offer.h"

namespace squeezeout::bench {

void joint_column(look::Canvas& canvas, look::Rect at, const Scene& scene, const Recipe& recipe,
                  const Offer& offer);
// Its keys for more glues, from the right of `head`; `below` is where the column will stand.
void glue_pages(look::Canvas& canvas, look::Rect& head, look::Rect below, const Scene& scene,
                const Offer& offer);
// All there is to mind: of the recipe, of the glue (0: the recipe's first), of the joint at its hour.
[[nodiscard]] std::vector<std::string> cautions(const words::Context& c, const Recipe& recipe,
                                                SheetId sheet, const JointAnswer* answer);
// A sign and a sentence; takes its place from the top of `area`. Returns whether there was room.
enum class Room { enough, none };
Room caution_line(look::Canvas& canvas, look::Rect& area, const std::string& text);

}  // namespace squeezeout::bench
