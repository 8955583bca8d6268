#pragma once
// Go-bars: a rod sprung between two decks, ends free to turn ("elastica").
//   Shape    alpha is the slope at the ends, p = sin(alpha / 2): P / Pcr = (2 K / pi)^2, chord / length = 2 E / K - 1,
//            bow / length = p / K, with K(p), E(p) the complete elliptic integrals; Pcr = pi^2 E I / L^2
//   Units    millimetre, newton, megapascal, gigapascal, degrees
//   Refuses  OutOfRange: a rod that is none; a gap as long as the rod (it is not sprung) or so short that the ends lie flat
//            (slope beyond 90 degrees: it jumps out)
//   Limits   the force is nearly constant once sprung: set by E I / L^2, not by the bow; the rod's own stiffness varies by 20 %
//   Source   trade/SOURCES.md#go_bar, trade/SOURCES.md#go_bar_bending

#include "common/base/quantity.h"
#include "common/base/result.h"
#include "common/trade/range.h"

namespace squeezeout {

// The curve itself, in parts: what the published table prints. Shape: 0 <= alpha < pi radians.
struct Elastica {
  double load;   // P / Pcr
  double chord;  // ends apart / length; negative: the ends have passed each other
  double bow;    // deflection at the middle / length
};
[[nodiscard]] Elastica elastica(double alpha_radians);

// It bends about its smaller side, whichever that is called.
struct Rod {
  Millimetre length, width, thickness;
  Gigapascal modulus;
  friend bool operator==(const Rod&, const Rod&) = default;
};

// The force at which it begins to bow. Shape: a rod that sprung() takes.
[[nodiscard]] Newton critical_load(const Rod& rod);

struct Sprung {
  Newton force;        // on each deck
  Megapascal bending;  // at the outside of the bend; warn near the rod's strength
  Millimetre bow;
  double end_slope_degrees;
};
[[nodiscard]] Result<Sprung, OutOfRange> sprung(const Rod& rod, Millimetre gap);

// How long a bar: length of a rod of that section (its own length is not read) that gives `force` in `gap`.
[[nodiscard]] Result<Millimetre, OutOfRange> length_for(const Rod& section, Millimetre gap,
                                                        Newton force);

// How many bars give `wanted` together, rounded UP.
[[nodiscard]] Result<int, OutOfRange> bars_for(Newton wanted, const Rod& rod, Millimetre gap);

}  // namespace squeezeout
