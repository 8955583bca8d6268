#pragma once
// The pages of the set-up screen, each laid out in what is left below the page keys. One source file a page.

#include "client/setup/controls.h"

namespace squeezeout::setup {

void device_page(look::Canvas& canvas, const Scene& scene, look::Rect body);
void shop_page(look::Canvas& canvas, const Scene& scene, look::Rect body);
void hours_page(look::Canvas& canvas, const Scene& scene, look::Rect body);
void people_page(look::Canvas& canvas, const Scene& scene, look::Rect body);
void gear_page(look::Canvas& canvas, const Scene& scene, look::Rect body);
void glues_page(look::Canvas& canvas, const Scene& scene, look::Rect body);
void recipes_page(look::Canvas& canvas, const Scene& scene, look::Rect body);
void units_page(look::Canvas& canvas, const Scene& scene, look::Rect body);
void open_page(look::Canvas& canvas, const Scene& scene, look::Rect body);

[[nodiscard]] std::string page_name(draft::Page page);  // in the language that is spoken

}  // namespace squeezeout::setup
