#pragma once
// The font of the screens: Inter, from Debian's fonts-inter, in three weights.
//   Refuses  a message with what, why and next when a file is not there or is no font

#include <array>
#include <string>

#include "client/look/frame_draw.h"
#include "client/look/letters.h"
#include "common/base/result.h"

namespace squeezeout::platform {

struct FontFiles {
  std::array<std::string, look::kWeights> bytes;  // medium, semibold, bold
};
// From the folder named by SQUEEZEOUT_FONTS, else where Debian keeps them.
[[nodiscard]] Result<FontFiles, std::string> read_fonts();

// Widths of letters: needs no window.
[[nodiscard]] look::Letters letters_of(const FontFiles& files, look::Scale scale);

// The wall's sizes are large: a bench, which never shows a wall, leaves its letters out.
enum class Sizes { all, bench };
// Bakes every letter size into the atlas of ImGui's current context. `files` outlives the context.
[[nodiscard]] look::Fonts bake_fonts(const FontFiles& files, const look::Letters& letters,
                                     Sizes sizes = Sizes::all);

}  // namespace squeezeout::platform
