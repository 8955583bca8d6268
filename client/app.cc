#include "client/app.h"

#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <csignal>
#include <fstream>

#include "client/device.h"
#include "client/files.h"
#include "client/leave.h"
#include "client/look/frame_draw.h"
#include "client/platform/window.h"
#include "client/studio.h"

namespace squeezeout {
namespace {

// Set by SIGTERM and SIGINT: the loop wakes at least once a second, sees it and ends as if the window were closed. The same
// signal again ends the program at once.
volatile std::sig_atomic_t asked_to_end = 0;

void end_when_asked() {
  struct sigaction action {};
  action.sa_handler = [](int) { asked_to_end = 1; };
  action.sa_flags = static_cast<int>(SA_RESETHAND);
  for (const int signal : {SIGTERM, SIGINT}) ::sigaction(signal, &action, nullptr);
}

class WindowRun {
 public:
  WindowRun(const Options& o, platform::Window& window, Device& device)
      : options_(o), window_(window), device_(device) {
    if (!o.record.empty()) record_.open(o.record, std::ios::app);
    resized();
  }

  int loop() {
    while (!window_.closing() && asked_to_end == 0) {
      window_.wait(frames_due_ > 0 ? 0.0 : seconds_to_tick());
      if (const auto trouble = device_.exchange()) return leave(kMistake, *trouble);
      if (window_.take_input()) frames_due_ = 3;  // ImGui sees a press, its release, and the rest
      if (window_.width() != width_ || window_.height() != height_ || looks_other()) resized();
      step();
      device_.sound_alarms();
    }
    return 0;
  }

 private:
  double seconds_to_tick() const {
    const std::int64_t past = device_.replica().now_ms(steady_now()) % 1000;
    return static_cast<double>(std::clamp<std::int64_t>(1000 - past, 100, 1000)) / 1000;
  }

  // Whether letters and colours are other ones now; the rest of the settings is not seen.
  bool looks_other() const {
    const Prefs& now = device_.session().view().prefs;
    return now.theme != prefs_.theme || now.text != prefs_.text ||
           now.mm_per_px != prefs_.mm_per_px;
  }

  void resized() {
    width_ = window_.width(), height_ = window_.height();
    prefs_ = device_.session().view().prefs;
    palette_ = look::Palette{prefs_.theme};
    scale_ = scale_of(prefs_, window_.mm_per_px(), width_, height_);
    letters_.emplace(platform::letters_of(device_.fonts(), scale_));
    fonts_ = platform::bake_fonts(
        device_.fonts(), *letters_,
        options_.screen == Screen::wall ? platform::Sizes::all : platform::Sizes::bench);
    window_.gl().fonts_changed();
    frames_due_ = std::max(frames_due_, 1);
    shown_ = {};
  }

  void step() {
    look::Frame frame = device_.lay_out(device_.session().view(), scale_, *letters_,
                                        static_cast<float>(width_), static_cast<float>(height_));
    const bool changed = !look::same_picture(frame, shown_);
    const bool more = frame.work == look::Frame::Work::more;
    if (!changed && !more && frames_due_ == 0) return;
    if (frames_due_ > 0) --frames_due_;
    if (more) frames_due_ = std::max(frames_due_, 1);

    window_.begin_frame();
    ui_.keys = window_.take_keys();
    ui_.typed += window_.take_typed();
    if (options_.screen == Screen::wall) ui_.keys.clear(), ui_.typed.clear();  // it takes no input
    const std::string ring = ui_.ring;
    const auto pressed = look::draw(frame, ui_);
    ImGui::Render();
    const bool held = ImGui::IsAnyItemActive() || ui_.ring != ring;
    if (changed || held || held_) {
      window_.gl().paint(palette_[look::Role::background], width_, height_);
      window_.show();
    }
    held_ = held;
    if (changed && !options_.dump_every_change.empty())
      (void)replace_file(options_.dump_every_change,
                         device_.dump(frame, device_.session().view(), scale_));
    shown_ = std::move(frame);
    if (pressed) press(*pressed);
    for (const std::string& path : window_.take_dropped())
      if (options_.screen != Screen::wall)
        press({"dropped", look::Pressed::By::mouse, ReadFile{path}});
  }

  void press(const look::Pressed& pressed) {
    if (record_.is_open())
      record_ << fmt::format(R"({{"id":{},"by":"{}","intent":{}}})", json_string(pressed.id),
                             pressed.by == look::Pressed::By::key ? "key" : "mouse",
                             to_json(pressed.intent))
              << std::endl;
    device_.press(pressed.intent);
    device_.exchange();  // sends it at once
    frames_due_ = std::max(frames_due_, 1);
  }

  const Options& options_;
  platform::Window& window_;
  Device& device_;
  Prefs prefs_;
  look::Palette palette_{look::Theme::dark};
  look::Scale scale_{look::kUsualMmPerPx, 900};
  std::optional<look::Letters> letters_;
  look::Fonts fonts_{};
  look::UiState ui_{fonts_, palette_, {}};
  look::Frame shown_;
  std::ofstream record_;
  int width_ = 0, height_ = 0;
  int frames_due_ = 1;
  bool held_ = false;
};

int run_window(const Options& o, platform::FontFiles fonts) {
  settings::Store store{o.settings.empty() ? settings::usual_file() : o.settings};
  const auto settings = store.read();
  if (!settings) return leave(kMistake, settings.error());
  const bool wall = o.screen == Screen::wall;
  auto window = platform::Window::open({.title = wall ? "squeezeout wall" : "squeezeout bench",
                                        .width = o.width,
                                        .height = o.height,
                                        .cover = o.cover == Options::Cover::fullscreen
                                                     ? platform::WindowWish::Cover::fullscreen
                                                     : platform::WindowWish::Cover::window,
                                        .pointer = wall ? platform::WindowWish::Pointer::hidden
                                                        : platform::WindowWish::Pointer::shown});
  if (!window) return leave(kNoPicture, window.error());
  Device device{o, std::move(fonts), std::move(store), *settings, [] { platform::Window::wake(); }};
  end_when_asked();
  return WindowRun{o, **window, device}.loop();
}

}  // namespace

int run(const Options& o) {
  words::speak(o.language);
  auto fonts = platform::read_fonts();
  if (!fonts) return leave(kNoPicture, fonts.error());
  if (o.shot.empty() && o.shots.empty() && o.replay.empty() && !o.dump)
    return run_window(o, std::move(*fonts));

  // A picture is the same on every device, but for settings that it is given.
  settings::Store store{o.settings, settings::Store::Writes::no};
  const auto settings = store.read();
  if (!settings) return leave(kMistake, settings.error());
  Device device{o, std::move(*fonts), std::move(store), *settings, [] {}};
  if (const auto code = device.wait_for_floor()) return *code;
  if (!o.replay.empty()) return run_replay(o, device);
  if (!o.shots.empty()) return run_shots(o, device);
  if (!o.shot.empty())
    if (const int code = run_shot(o, device); code != 0) return code;
  return o.dump ? run_dump(o, device) : 0;
}

}  // namespace squeezeout
