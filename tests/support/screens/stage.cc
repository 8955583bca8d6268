#include "tests/support/screens/stage.h"

namespace squeezeout::testing {
namespace {

const platform::FontFiles& inter() {
  static const platform::FontFiles files = [] {
    auto read = platform::read_fonts();
    CHECK(read.has_value());
    return std::move(*read);
  }();
  return files;
}

}  // namespace

Stage::Stage(float width_px, float height_px, float mm_per_px, float text)
    : fonts(inter()),
      scale(mm_per_px, height_px, look::fitting_text(text, width_px, height_px, mm_per_px)),
      letters(platform::letters_of(fonts, scale)),
      view(ada_at_bench_1(Screen::bench)),
      width(width_px),
      height(height_px) {}

look::Frame Stage::frame(const Floor& floor, Instant now) {
  quotes = {};  // floors change between frames of a test without a revision
  return lay_out({.floor = floor,
                  .now = now,
                  .link = link,
                  .silent = silent,
                  .facts_waiting = facts_waiting,
                  .trouble = "",
                  .view = view,
                  .scale = scale,
                  .letters = letters,
                  .quotes = quotes,
                  .revision = revision,
                  .plan = plan,
                  .what_if = what_if,
                  .alarms = alarms,
                  .width = width,
                  .height = height});
}

View ada_at_bench_1(Screen screen) {
  View view;
  view.screen = screen;
  view.builder = kAda;
  view.bench = kBench1;
  return view;
}

const look::Press* find(const look::Frame& frame, const std::string& id) {
  for (const look::Press& p : frame.presses)
    if (p.id == id) return &p;
  return nullptr;
}

std::vector<look::Words> texts(const look::Frame& frame) {
  std::vector<look::Words> out;
  for (const look::Mark& mark : frame.marks)
    if (const auto* words = std::get_if<look::Words>(&mark)) out.push_back(*words);
  return out;
}

bool says(const look::Frame& frame, const std::string& part) {
  for (const look::Words& w : texts(frame))
    if (w.text.find(part) != std::string::npos) return true;
  return false;
}

std::string all_texts(const look::Frame& frame) {
  std::string out;
  for (const look::Words& w : texts(frame)) out += w.text + "\n";
  return out;
}

}  // namespace squeezeout::testing
