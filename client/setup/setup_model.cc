#include "client/setup/setup_model.h"

#include <fmt/format.h>

#include <array>

#include "client/panels/chrome_model.h"
#include "client/setup/pages.h"
#include "client/words/say.h"

namespace squeezeout::setup {
namespace {

using draft::Page;
using look::Canvas;
using look::Rect;

using LayOut = void (*)(Canvas&, const Scene&, Rect);
constexpr std::array<LayOut, draft::kPages> kLayOuts{device_page,  shop_page,  hours_page,
                                                     people_page,  gear_page,  glues_page,
                                                     recipes_page, units_page, open_page};

constexpr std::array<std::string_view, draft::kPages> kIds{
    "device", "shop", "hours", "people", "gear", "glues", "recipes", "units", "open"};

// One key a page; Left and Right turn them.
void page_row(Canvas& canvas, const Scene& scene, Rect row) {
  const int here = static_cast<int>(scene.view.draft.page);
  std::vector<look::Button> keys;
  for (int i = 0; i < draft::kPages; ++i) {
    const auto page = static_cast<Page>(i);
    look::Button b{.id = fmt::format("setup.{}", kIds[static_cast<std::size_t>(i)]),
                   .label = page_name(page)};
    b.intent = ShowSetup{page, scene.view.draft.day};
    if (i == here) b.look = look::Look::chosen;
    if (i == here - 1) b.keys = {look::kLeft}, b.key_name = "←";
    if (i == here + 1) b.keys = {look::kRight}, b.key_name = "→";
    keys.push_back(std::move(b));
  }
  choice(canvas, row, std::move(keys));
}

std::string hint(const Scene& scene) {
  if (!scene.floor.shop)
    return words::tr("Nothing is open yet: the draft is kept on this device until you open it.");
  if (scene.view.draft.shop)
    return words::tr("A draft: the shop stays as it is until you open it.");
  return words::tr("Left and Right turn the pages. Tab goes to the next key, Enter presses it.");
}

}  // namespace

std::string page_name(Page page) {
  switch (page) {
    case Page::device:
      return words::tr("Device");
    case Page::shop:
      return words::tr("Shop");
    case Page::hours:
      return words::tr("Hours");
    case Page::people:
      return words::tr("People");
    case Page::gear:
      return words::tr("Gear");
    case Page::glues:
      return words::tr("Glues");
    case Page::recipes:
      return words::tr("Recipes");
    case Page::units:
      return words::tr("Units");
    case Page::open:
      return words::tr("Open");
  }
  return {};
}

look::Frame lay_out_setup(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  const panels::Chrome chrome = panels::chrome(canvas, scene);
  if (!chrome.foot.empty())
    canvas.words(chrome.foot, hint(scene), look::Type::body, {look::Role::muted, look::Role::lane});
  Rect body = chrome.body;
  page_row(canvas, scene, row_of(canvas, body));
  kLayOuts[static_cast<std::size_t>(scene.view.draft.page)](canvas, scene, body);
  return canvas.take();
}

}  // namespace squeezeout::setup
