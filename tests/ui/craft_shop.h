#pragma once
// The small shop, with joints described: what the screens of the craft need. Invented; figures are round on purpose.
//   bridge     maple on spruce, 3 deep clamps of 800 N; resin fits
//   fretboard  ebony on a neck of maple; epoxy fits, resin would bow the neck
//   bend       in a form of 160 C: hold 30 min, cool 40 min

#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {

inline constexpr RecipeId kFretboard{5};
inline constexpr SheetId kEpoxy{3};

inline Shop craft_shop() {
  Shop s = small_shop();
  s.gear[0].force = {800};
  s.gear[0].pad = {25};
  s.sheets.push_back({.id = kEpoxy,
                      .key = "epoxy",
                      .name = "Epoxy",
                      .chemistry = Chemistry::epoxy_slow,
                      .open = Minutes{60},
                      .working_life = Minutes{40},
                      .dwell = {{{20}, std::chrono::hours{4}}},
                      .activation_kj = 57,
                      .wait = std::chrono::hours{24},
                      .floor = {12},
                      .shelf_days = 300,
                      .source = "invented"});
  Joint& bridge = s.recipes[0].joint;
  bridge.length = {180};
  bridge.width = {30};
  bridge.a.material = "sugar-maple";
  bridge.b.material = "sitka-spruce";
  bridge.thickness = {4};
  bridge.under = {20};
  Recipe fretboard = s.recipes[0];
  fretboard.id = kFretboard;
  fretboard.key = fretboard.name = "fretboard";
  fretboard.glues = {kEpoxy};
  fretboard.joint.a.material = "ebony";
  fretboard.joint.b.material = "mahogany";
  fretboard.joint.traits = {Trait::beside_neck};
  s.recipes.push_back(fretboard);
  s.recipes[3].heat = Heat{Minutes{30}, Minutes{40}, {160}};
  return s;
}

}  // namespace squeezeout::testing
