#pragma once
// Our own icons, drawn as shapes: the same at every size, in any colour.

#include "client/look/frame.h"

struct ImDrawList;

namespace squeezeout::look {

// `colour` as ImGui packs it.
void draw_icon(ImDrawList& list, Glyph glyph, Rect at, unsigned colour);

}  // namespace squeezeout::look
