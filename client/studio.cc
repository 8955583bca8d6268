#include "client/studio.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <thread>

#include "client/files.h"
#include "client/leave.h"
#include "client/look/frame_draw.h"
#include "client/platform/headless.h"
#include "client/replay.h"

namespace squeezeout {
namespace {

constexpr int kMostFrames = 500;  // until all is worked out that the picture shows

class Studio {
 public:
  Studio(std::unique_ptr<platform::Headless> headless, Device& device)
      : headless_(std::move(headless)), device_(device) {}

  // A message when the picture cannot be written.
  std::optional<std::string> shoot(const View& view, int width, int height,
                                   const std::string& path) {
    const auto w = static_cast<float>(width), h = static_cast<float>(height);
    const look::Scale scale = scale_of(view.prefs, 0, width, height);
    const look::Letters letters = platform::letters_of(device_.fonts(), scale);
    const look::Fonts fonts = platform::bake_fonts(device_.fonts(), letters);
    const look::Palette palette{view.prefs.theme};
    headless_->gl().fonts_changed();
    headless_->begin_frame(width, height);
    look::UiState ui{fonts, palette, {}};
    device_.work_out(view);
    look::Frame frame = device_.lay_out(view, scale, letters, w, h);
    for (int i = 0; i < kMostFrames && frame.work == look::Frame::Work::more; ++i)
      frame = device_.lay_out(view, scale, letters, w, h);
    (void)look::draw(frame, ui);
    return platform::write_png(
        path, headless_->end_frame(palette[look::Role::background], width, height));
  }

 private:
  std::unique_ptr<platform::Headless> headless_;
  Device& device_;
};

// Carries out a replay file.
class Actor {
 public:
  Actor(Device& device, std::string folder) : device_(device), folder_(std::move(folder)) {}

  // A message when the step cannot be done.
  std::optional<std::string> act(const replay::Step& step) {
    const auto trouble = std::visit([&](const auto& what) { return on(what); }, step.what);
    if (trouble) return fmt::format("line {}, \"{}\": {}", step.line, step.text, *trouble);
    return std::nullopt;
  }

 private:
  using Trouble = std::optional<std::string>;

  look::Frame frame() {
    const View& view = device_.session().view();
    const look::Scale scale = scale_of(view.prefs, 0, width_, height_);
    const look::Letters letters = platform::letters_of(device_.fonts(), scale);
    return device_.lay_out(view, scale, letters, static_cast<float>(width_),
                           static_cast<float>(height_));
  }
  // Until `seen` says so of a frame, 10 s at most.
  template <class Seen>
  Trouble watch(Seen seen, const std::string& missing) {
    const Steady until = steady_now() + kPatience;
    while (true) {
      if (auto trouble = device_.exchange()) return trouble;
      if (seen(frame())) return std::nullopt;
      if (steady_now() > until) return missing;
      std::this_thread::sleep_for(std::chrono::milliseconds{20});
    }
  }
  template <class Meant>
  Trouble press(Meant meant, const std::string& missing) {
    std::optional<Intent> intent;
    auto trouble = watch(
        [&](const look::Frame& f) {
          for (const look::Press& p : f.presses)
            if (!intent && meant(p)) intent = p.intent;
          return intent.has_value();
        },
        missing);
    if (trouble) return trouble;
    device_.press(*intent);
    return watch([&](const look::Frame&) { return device_.replica().unanswered() == 0; },
                 "the server does not answer");
  }

  Trouble on(const replay::PressId& s) {
    return press([&](const look::Press& p) { return p.id == s.id; },
                 "the screen shows no such widget. Next: see the ids in --ui-dump.");
  }
  Trouble on(const replay::PressKey& s) {
    return press(
        [&](const look::Press& p) {
          return std::find(p.keys.begin(), p.keys.end(), s.key) != p.keys.end();
        },
        "no key of that name on this screen. Next: see the keys in --ui-dump.");
  }
  Trouble on(const replay::Until& s) {
    return watch(
        [&](const look::Frame& f) {
          return std::any_of(f.marks.begin(), f.marks.end(), [&](const look::Mark& m) {
            const auto* words = std::get_if<look::Words>(&m);
            return words != nullptr && words->text.find(s.text) != std::string::npos;
          });
        },
        "the screen does not say so within 10 s.");
  }
  Trouble on(const replay::Wait& s) {
    const Steady until = steady_now() + std::chrono::duration_cast<Steady::duration>(
                                            std::chrono::duration<double>(s.seconds));
    return watch([&](const look::Frame&) { return steady_now() >= until; }, "");
  }
  Trouble on(const replay::Show& s) {
    View view = device_.session().view();
    view.screen = s.screen;
    device_.session().look_at(device_.with_subject(std::move(view)));
    return std::nullopt;
  }
  Trouble on(const replay::Wear& s) {
    View view = device_.session().view();
    view.prefs.theme = s.theme;
    device_.session().look_at(std::move(view));
    return std::nullopt;
  }
  Trouble on(const replay::Text& s) {
    View view = device_.session().view();
    view.prefs.text = s.text;
    device_.session().look_at(std::move(view));
    return std::nullopt;
  }
  Trouble on(const replay::Size& s) {
    width_ = s.width, height_ = s.height;
    return std::nullopt;
  }
  Trouble on(const replay::Shot& s) {
    auto headless = platform::Headless::open(width_, height_);
    if (!headless) return headless.error();
    Studio studio{std::move(*headless), device_};
    return studio.shoot(device_.session().view(), width_, height_, folder_ + "/" + s.file);
  }

  Device& device_;
  std::string folder_;
  int width_ = 1920, height_ = 1080;
};

}  // namespace

int run_shot(const Options& o, Device& device) {
  auto headless = platform::Headless::open(o.width, o.height);
  if (!headless) return leave(kNoPicture, headless.error());
  Studio studio{std::move(*headless), device};
  if (const auto trouble = studio.shoot(device.session().view(), o.width, o.height, o.shot))
    return leave(kNoPicture, *trouble);
  return 0;
}

int run_shots(const Options& o, Device& device) {
  std::error_code error;
  std::filesystem::create_directories(o.shots, error);
  struct Size {
    int width, height;
  };
  for (const Size size : {Size{1920, 1080}, Size{1366, 768}}) {
    auto headless = platform::Headless::open(size.width, size.height);
    if (!headless) return leave(kNoPicture, headless.error());
    Studio studio{std::move(*headless), device};
    for (const look::Theme theme : {look::Theme::dark, look::Theme::light})
      for (int i = 0; i < kScreens; ++i) {
        if (const auto trouble = device.exchange()) return leave(kMistake, *trouble);
        View view = device.session().view();
        view.screen = static_cast<Screen>(i);
        view.prefs.theme = theme;
        view = device.with_subject(view);
        const std::string path =
            fmt::format("{}/{}-{}-{}x{}.png", o.shots, to_string(view.screen),
                        theme == look::Theme::dark ? "dark" : "light", size.width, size.height);
        if (const auto trouble = studio.shoot(view, size.width, size.height, path))
          return leave(kNoPicture, *trouble);
        std::printf("%s\n", path.c_str());
      }
  }
  return 0;
}

int run_dump(const Options& o, Device& device) {
  const auto w = static_cast<float>(o.width), h = static_cast<float>(o.height);
  const View& view = device.session().view();
  const look::Scale scale = scale_of(view.prefs, 0, o.width, o.height);
  const look::Letters letters = platform::letters_of(device.fonts(), scale);
  device.work_out(view);
  const std::string json = device.dump(device.lay_out(view, scale, letters, w, h), view, scale);
  if (o.dump->empty()) {
    std::fputs(json.c_str(), stdout);
    return 0;
  }
  if (!replace_file(*o.dump, json))
    return leave(kNoPicture, *o.dump +
                                 " cannot be written. Next: name a file in a folder that you "
                                 "may write to.");
  return 0;
}

int run_replay(const Options& o, Device& device) {
  std::ifstream in(o.replay, std::ios::binary);
  const std::string text(std::istreambuf_iterator<char>(in), {});
  if (!in)
    return leave(kMistake, o.replay +
                               " cannot be read. Next: name a replay file, or one that "
                               "--record wrote.");
  const auto steps = replay::parse(o.replay, text);
  if (!steps) return leave(kMistake, steps.error());
  std::error_code error;
  std::filesystem::create_directories(o.replay_into, error);
  Actor actor{device, o.replay_into};
  for (const replay::Step& step : *steps)
    if (const auto trouble = actor.act(step)) return leave(kNoPicture, o.replay + ", " + *trouble);
  return 0;
}

}  // namespace squeezeout
