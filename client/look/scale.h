#pragma once
// Sizes: everything on a screen is stated in millimetres and turned into pixels here.
//   Shape   the system's own scaling is not asked: a bench screen is calibrated, `--mm-per-px`
//   Units   letters by cap height. 20 minutes of arc at D: h = 2 D tan(10'), so 3.5 mm at 0.6 m, 29 mm at 5 m
//   Source  ISO 9241-3 (20 to 22 minutes preferred, 16 least)

#include <cstddef>
#include <cstdint>

namespace squeezeout::look {

enum class Weight : std::uint8_t { medium, semibold, bold };
inline constexpr int kWeights = 3;

// Every letter size that the screens use; each is baked once.
enum class Type : std::uint8_t {
  small,   // second lines
  body,    // sentences
  strong,  // labels, buttons
  title,   // names
  head,    // headings, times in lists
  big,     // the verb of the Next key, times of day
  giant,   // times on the card
  huge,
  colossal,  // huge, colossal: times and countdowns, figures only
  wall_sub,
  wall_name,
  wall_time,  // read at 5 m
};
inline constexpr int kTypes = 12;

struct TypeFace {
  float cap_mm = 0;
  Weight weight = Weight::medium;
};
[[nodiscard]] TypeFace face_of(Type type);
[[nodiscard]] bool on_wall(Type type);

inline constexpr float kTouchMm = 20;        // least side of what can be pressed
inline constexpr float kGapMm = 5;           // least distance between two such
inline constexpr float kWallHeightMm = 535;  // a 43-inch screen: wall sizes are stated for it

class Scale {
 public:
  // Millimetres a pixel of this screen, and its height in pixels (the wall's sizes follow the height).
  Scale(float mm_per_px, float height_px) : mm_per_px_(mm_per_px), height_px_(height_px) {}

  float px(float mm) const { return mm / mm_per_px_; }
  float mm(float px) const { return px * mm_per_px_; }
  float wall_px(float mm) const { return mm * height_px_ / kWallHeightMm; }
  float cap_px(Type type) const {
    const float mm = face_of(type).cap_mm;
    return on_wall(type) ? wall_px(mm) : px(mm);
  }

 private:
  float mm_per_px_, height_px_;
};

inline constexpr float kUsualMmPerPx = 0.27F;  // when the monitor does not say

}  // namespace squeezeout::look
