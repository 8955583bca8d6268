#pragma once
// Moisture in wood: what it comes to in steady air, how far that moves it, and the water that glue brings.
//   Units    Celsius; humidity in percent; moisture in percent of the dry mass; millimetres; seconds rounded UP
//   Refuses  OutOfRange, NaN too; nothing is extrapolated
//   Source   trade/SOURCES.md#emc, trade/SOURCES.md#movement, trade/SOURCES.md#glue_water, trade/SOURCES.md#levelling_wait

#include "common/base/quantity.h"
#include "common/base/result.h"
#include "common/time/span.h"
#include "common/trade/range.h"

namespace squeezeout {

// What wood comes to in steady air ("equilibrium moisture content").
//   Refuses  outside -1.1..98.9 C and 5..95 %
//   Limits   no species effect, no hysteresis
//   Source   trade/SOURCES.md#emc
[[nodiscard]] Result<Percent, OutOfRange> equilibrium_moisture(Celsius air, Percent humidity);

// How much wider (or narrower, below zero) a piece becomes across the grain: size * coefficient * (to - from).
//   Shape    coefficient: part of the size for 1 % of moisture, of the wood and its cut (trade/material.h)
//   Refuses  outside 6..14 % moisture, 0..5000 mm, 0..0.01
//   Source   trade/SOURCES.md#movement
[[nodiscard]] Result<Millimetre, OutOfRange> movement(Millimetre size, double coefficient,
                                                      Percent from, Percent to);

// Moisture that the water of one glue line adds to a part, spread evenly through its thickness: 100 g w / (rho t).
//   Shape    spread: grams of wet glue on a square metre that go into this part; water_share: 0..1 of the glue's mass
//   Refuses  outside 0..1000 g/m2, 0..1, 50..1500 kg/m3, 0.1..100 mm
//   Source   trade/SOURCES.md#glue_water (our own mass balance)
[[nodiscard]] Result<Percent, OutOfRange> glue_water(double spread_g_m2, double water_share,
                                                     Density wood, Millimetre thickness);

// How long until less than 1 % of added moisture is left, so that a levelled line does not sink: first order, with a time
// constant that grows with the square of the thickness, 24 minutes at 1 mm, as for water that leaves by one face.
//   Shape    0 where less than 1 % was added; at most kMaxClaim
//   Refuses  outside 0..100 % and 0.1..100 mm
//   Source   trade/SOURCES.md#levelling_wait (our model)
[[nodiscard]] Result<Seconds, OutOfRange> levelling_wait(Percent added, Millimetre thickness);

}  // namespace squeezeout
