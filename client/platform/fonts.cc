#include "client/platform/fonts.h"

#include <imgui.h>
#include <stb/stb_truetype.h>

#include <cstdlib>
#include <fstream>
#include <iterator>

namespace squeezeout::platform {
namespace {

constexpr const char* kFolder = "/usr/share/fonts/opentype/inter";
constexpr std::array<const char*, look::kWeights> kNames{"Inter-Medium.otf", "Inter-SemiBold.otf",
                                                         "Inter-Bold.otf"};
constexpr int kMeasured = 0x2200;  // code points that are measured: Latin and punctuation

// What is baked: Latin with its accents, and the punctuation and signs of the screens.
constexpr ImWchar kLatin[] = {0x20,   0x17F,  0x218,  0x21B,  0x2013, 0x2026,
                              0x20A0, 0x20BF, 0x2190, 0x2193, 0};
// Large letters: no accents, no builder's names.
constexpr ImWchar kPlain[] = {0x20, 0x7E, 0xB7, 0xB7, 0};
// The countdown and the clock.
constexpr ImWchar kFigures[] = {'+', '.', '0', ':', '~', '~', 0};

const ImWchar* letters_for(look::Type type, Sizes sizes) {
  if (sizes == Sizes::bench && look::on_wall(type)) return kFigures;
  switch (type) {
    case look::Type::huge:
    case look::Type::colossal:
    case look::Type::wall_time:
      return kFigures;
    case look::Type::giant:
      return kPlain;
    default:
      return kLatin;
  }
}

const unsigned char* data_of(const std::string& bytes) {
  return reinterpret_cast<const unsigned char*>(bytes.data());
}

bool baked(int code_point) {
  for (const ImWchar* range = kLatin; *range != 0; range += 2)
    if (code_point >= range[0] && code_point <= range[1]) return true;
  return false;
}

look::Advances measure(const std::string& bytes) {
  stbtt_fontinfo font;
  CHECK(stbtt_InitFont(&font, data_of(bytes), 0) != 0);  // read_fonts() has seen to it
  int ascent = 0, descent = 0, line_gap = 0;
  stbtt_GetFontVMetrics(&font, &ascent, &descent, &line_gap);
  const float size = static_cast<float>(ascent - descent);
  look::Advances a;
  a.by_code_point.reserve(kMeasured);
  for (int c = 0; c < kMeasured; ++c) {
    int advance = 0, bearing = 0;
    if (!baked(c)) {
      a.by_code_point.push_back(a.other);
      continue;
    }
    stbtt_GetCodepointHMetrics(&font, c, &advance, &bearing);
    a.by_code_point.push_back(static_cast<float>(advance) / size);
  }
  int x0 = 0, y0 = 0, x1 = 0, y1 = 0;
  stbtt_GetCodepointBox(&font, 'H', &x0, &y0, &x1, &y1);
  a.cap = static_cast<float>(y1) / size;
  a.cap_top = static_cast<float>(ascent - y1) / size;
  return a;
}

}  // namespace

Result<FontFiles, std::string> read_fonts() {
  const char* set = std::getenv("SQUEEZEOUT_FONTS");
  const std::string folder = set != nullptr ? set : kFolder;
  FontFiles files;
  for (std::size_t i = 0; i < kNames.size(); ++i) {
    const std::string path = folder + "/" + kNames[i];
    std::ifstream in(path, std::ios::binary);
    files.bytes[i].assign(std::istreambuf_iterator<char>(in), {});
    stbtt_fontinfo font;
    if (!in || files.bytes[i].empty() || stbtt_InitFont(&font, data_of(files.bytes[i]), 0) == 0)
      return Unexpected(
          "The screens have no letters: " + path + (in ? " is not a font" : " cannot be read") +
          ". Next: install the package fonts-inter, or set SQUEEZEOUT_FONTS to a folder with " +
          kNames[i] + ".");
  }
  return files;
}

look::Letters letters_of(const FontFiles& files, look::Scale scale) {
  std::array<look::Advances, look::kWeights> weights;
  for (std::size_t i = 0; i < weights.size(); ++i) weights[i] = measure(files.bytes[i]);
  return {scale, std::move(weights)};
}

look::Fonts bake_fonts(const FontFiles& files, const look::Letters& letters, Sizes sizes) {
  ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
  atlas.Clear();
  atlas.Flags |= ImFontAtlasFlags_NoMouseCursors;
  look::Fonts fonts{};
  for (int i = 0; i < look::kTypes; ++i) {
    const auto type = static_cast<look::Type>(i);
    const std::string& bytes = files.bytes[static_cast<std::size_t>(look::face_of(type).weight)];
    ImFontConfig config;
    config.FontDataOwnedByAtlas = false;
    const float size = letters.size_px(type);
    config.OversampleH = size < 24 ? 2 : 1;
    config.OversampleV = 1;
    // The atlas does not write to what it does not own.
    fonts[static_cast<std::size_t>(i)] =
        atlas.AddFontFromMemoryTTF(const_cast<char*>(bytes.data()), static_cast<int>(bytes.size()),
                                   size, &config, letters_for(type, sizes));
  }
  atlas.Build();
  return fonts;
}

}  // namespace squeezeout::platform
