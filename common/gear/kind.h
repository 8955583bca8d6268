#pragma once
// Gear kinds: what the shop owns, counted, and what each piece can do.
//   Shape    one GearKind is one line of stock. A tagged unit (deck A, the form of one outline) is a kind of its own with
//            stock 1 and a tag: one mechanism holds for both, and a lane on the board is a kind.
//   Units    millimetres, newtons; 0 = "does not matter for this kind"

#include <compare>
#include <string>
#include <string_view>
#include <vector>

#include "common/base/ids.h"
#include "common/base/quantity.h"

namespace squeezeout {

enum class GearClass { clamp, go_bar, caul, form, deck, mould, other };
inline constexpr int kGearClasses = 7;
std::string_view to_string(GearClass c);  // "clamp", "go-bar", ...

struct GearKind {
  GearKindId id;
  std::string key;   // "deep-clamp"; a tagged unit's key is "deck/A"
  std::string name;  // "Deep clamp", "Go-bar deck A"
  GearClass gear_class = GearClass::clamp;
  std::string tag;    // empty: counted
  std::string style;  // "cam", "spool", "bar", "spring", "bending"...: a need may ask for it
  int stock = 0;      // pieces owned, working or not
  Millimetre opening, throat, length;
  Newton force;
  Millimetre pad;                       // of a clamp's pad along the joint
  std::string screw;                    // thread, "Tr12x3"
  NewtonMetre torque;                   // by hand, on its handle; with `screw` it gives the force
  Millimetre rod_width, rod_thickness;  // of a go-bar
  Gigapascal rod_stiffness;             // modulus of elasticity along the rod
  Megapascal rod_strength;              // bending strength; warned of near it
  std::string size;                     // free words, "40 x 15 mm"
  std::string outline;                  // forms and moulds: which outline is fitted, "parlour"
  bool hot = false;                     // a heated form
  friend bool operator==(const GearKind&, const GearKind&) = default;
};

// What a joint needs, as capability: any mix of good-enough kinds meets it.
struct GearNeed {
  GearClass gear_class = GearClass::clamp;
  int count = 0;
  Millimetre opening, throat, length;  // at least
  Newton force;                        // at least, a piece
  std::string style;                   // exactly, when given
  std::string outline;                 // exactly, when given
  friend bool operator==(const GearNeed&, const GearNeed&) = default;
};

[[nodiscard]] bool good_enough(const GearKind& kind, const GearNeed& need);
// Orders good-enough kinds, least capable first, so that deep clamps stay free for deep work; ties by id.
[[nodiscard]] bool less_capable(const GearKind& a, const GearKind& b);

struct Held {
  GearKindId kind;
  int count = 0;
  friend auto operator<=>(const Held&, const Held&) = default;
};

}  // namespace squeezeout
