#pragma once
// Sizes: everything on a screen is stated in millimetres and turned into pixels here.
//   Shape   the system's own scaling is not asked: a bench screen is calibrated, `--mm-per-px` or on the set-up screen
//           Text from 1 to 2 enlarges the whole layout, letters and what stands around them; what is pressed stays at least
//           20 mm of glass. A screen that has no room for it gets as much as it has room for.
//   Units   letters by cap height. 20 minutes of arc at D: h = 2 D tan(10'), so 3.5 mm at 0.6 m, 29 mm at 5 m
//   Source  ISO 9241-3 (20 to 22 minutes preferred, 16 least)

#include <algorithm>
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

// From how far it is read: a bench at 0.6 m, the wall at 5 m, its second lines when walking up to it.
[[nodiscard]] float distance_m(Type type);
[[nodiscard]] float arc_minutes(float cap_mm, float distance_m);  // of a capital, seen from there
inline constexpr float kLeastArcMinutes = 16;

inline constexpr float kTouchMm = 20;        // least side of what can be pressed
inline constexpr float kGapMm = 5;           // least distance between two such
inline constexpr float kWallHeightMm = 535;  // a 43-inch screen: wall sizes are stated for it
// What every screen can be laid out in, in layout millimetres: less is not given to it, text grows less instead.
inline constexpr float kLeastWidthMm = 259, kLeastHeightMm = 146;
inline constexpr float kMostText = 2;

// Whether the millimetres of a pixel are this screen's own: a projector or a television often has none to tell.
enum class Measured { no, yes };

class Scale {
 public:
  // Millimetres a pixel of this screen, its height in pixels (the wall's sizes follow the height), and how large text is.
  Scale(float mm_per_px, float height_px, float text = 1, Measured measured = Measured::no)
      : mm_per_px_(mm_per_px), height_px_(height_px), text_(text), measured_(measured) {}

  float px(float mm) const { return mm * text_ / mm_per_px_; }  // of the layout: grows with text
  float mm(float px) const { return px * mm_per_px_; }          // of glass
  float text() const { return text_; }
  // The least side of what can be pressed, large text or not, and the least distance.
  float touch() const { return std::max(kTouchMm / mm_per_px_, px(kLeastLabelMm)); }
  float gap() const { return kGapMm / mm_per_px_; }
  // On a larger screen the wall is larger. One that was measured and is smaller keeps the millimetres, and shows fewer rows.
  float wall_px(float mm) const {
    const float by_height = mm * height_px_ / kWallHeightMm;
    return measured_ == Measured::yes ? std::max(by_height, mm / mm_per_px_) : by_height;
  }
  float cap_px(Type type) const {
    const float mm = face_of(type).cap_mm;
    return on_wall(type) ? wall_px(mm) : px(mm);
  }

 private:
  static constexpr float kLeastLabelMm = 14;  // two lines on a key
  float mm_per_px_, height_px_, text_;
  Measured measured_;
};

// As much of the wanted text size, 1 to 2, as this screen has room for.
[[nodiscard]] float fitting_text(float wanted, float width_px, float height_px, float mm_per_px);

inline constexpr float kUsualMmPerPx = 0.27F;  // when the monitor does not say

}  // namespace squeezeout::look
