#pragma once
// Words of what is planned ahead: proposals, builds at risk, what more gear would save.
//   Rules   those of words.h

#include <string>

#include "client/words/words.h"
#include "common/floor/replan.h"
#include "common/floor/what_if.h"

namespace squeezeout::words {

std::string from_to(const Context& c, const Shift& s);  // "13:00 → 15:20", "no place → Fri 9:10"
std::string shift(const Context& c, const Shift& s);    // "13:00 → 15:20, with hide glue"
// "nothing late · 4 moved, by 6 h 10 in all", "late 3 h 20 · nothing moved"
std::string cost(const schedule::Cost& cost);
std::string proposal(const Proposal& p);  // "Proven best.", "The best found."
// "due Fri 4 Dec, ready Mon 7 Dec: the neck joint is last"; "due Fri 4 Dec, and one of its steps finds no time at all"
std::string at_risk(const Context& c, const AtRisk& r);

std::string change(const Context& c,
                   const Hypothesis& h);  // "1 more deep clamp", "1 more go-bar deck like A"
std::string saving(const WhatIf& w);      // "5 h 20 less waiting"
std::string counted(const WhatIf& w);     // "over 31 glue-ups: 9 sooner, 1 later"

}  // namespace squeezeout::words
