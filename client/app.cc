#include "client/app.h"

#include <fmt/format.h>
#include <imgui.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <thread>

#include "client/lay_out.h"
#include "client/look/dump.h"
#include "client/look/frame_draw.h"
#include "client/platform/fonts.h"
#include "client/platform/headless.h"
#include "client/platform/window.h"
#include "client/view/next.h"

namespace squeezeout {
namespace {

constexpr int kMistake = 2, kNoServer = 3, kNoPicture = 4;
constexpr std::chrono::seconds kPatience{10};

int say(int code, const std::string& text) {
  std::fprintf(stderr, "squeezeout-bench: %s\n", text.c_str());
  return code;
}

Steady steady_now() { return std::chrono::steady_clock::now(); }

// This device's id is kept beside the person's other settings.
std::string device_file() {
  const char* state = std::getenv("XDG_STATE_HOME");
  if (state != nullptr) return std::string(state) + "/squeezeout/device";
  const char* home = std::getenv("HOME");
  return std::string(home != nullptr ? home : ".") + "/.local/state/squeezeout/device";
}

// As this device is set, but for what the command line says.
Prefs prefs_of(const Options& o) {
  Prefs p;
  if (o.theme) p.theme = *o.theme;
  if (o.mm_per_px > 0) p.mm_per_px = o.mm_per_px;
  if (o.text > 0) p.text = o.text;
  return p;
}

View view_of(const Options& o) {
  View v;
  v.screen = o.screen;
  v.prefs = prefs_of(o);
  v.lanes = o.lanes;
  v.zoom = o.zoom;
  v.glue_up = GlueUpId{o.glue_up};
  v.chain = o.chain;
  v.plan = o.plan;
  if (o.screen == Screen::board) v.picked = v.glue_up;
  return v;
}

// A card, a reserve screen and figures that are opened from the command line need something to show.
View with_subject(View v, const Options& o, const Floor& floor, Instant now) {
  if (v.screen == Screen::card && !v.glue_up) {
    const auto own = own_glue_ups(floor, v.builder, v.bench, now);
    if (!own.empty()) v.glue_up = own.front()->id;
    for (const auto& [id, g] : floor.glue_ups)
      if (!v.glue_up && running(g)) v.glue_up = id;
  }
  if (v.screen == Screen::figures) v.figures_of = v.glue_up;
  if ((v.screen == Screen::reserve || v.screen == Screen::figures) && !v.wanted.recipe) {
    v.wanted.builder = v.builder;
    v.wanted.bench = v.bench;
    for (const Recipe& r : floor.shop->recipes)
      if (o.recipe.empty() ? r.usual : r.key == o.recipe) {
        v.wanted.recipe = r.id;
        break;
      }
    for (const AdhesiveSheet& sheet : floor.shop->sheets)
      if (sheet.key == o.glue) v.wanted.sheet = sheet.id;
  }
  return v;
}

// What all ways to run share: the mirror, who looks at it, and how long letters are.
class Device {
 public:
  Device(const Options& options, platform::FontFiles fonts, const std::function<void()>& wake)
      : options_(options),
        fonts_(std::move(fonts)),
        replica_(device_id(device_file())),
        connection_(options.server, wake),
        desk_(plan_ahead::of_the_floor(), wake),
        session_(replica_, desk_, view_of(options), new_command_id) {}

  // Takes what came in. A message when the shop does not know this device's bench or builder.
  std::optional<std::string> exchange() {
    connection_.exchange(replica_);
    session_.take_answers(steady_now());
    if (!identified_ && replica_.caught_up() && replica_.floor().shop) {
      auto view = identify(session_.view(), options_.who, replica_.floor());
      if (!view) return view.error();
      session_.look_at(
          with_subject(std::move(*view), options_, replica_.floor(), replica_.now(steady_now())));
      identified_ = true;
    }
    return std::nullopt;
  }
  // Waits for a live floor: the exit code, or nullopt when it is there.
  std::optional<int> wait_for_floor() {
    const Steady until = steady_now() + kPatience;
    while (!identified_) {
      if (const auto trouble = exchange()) return say(kMistake, *trouble);
      if (identified_) break;
      if (steady_now() > until)
        return say(kNoServer,
                   fmt::format("no server answered at {}:{} within 10 s. {} Next: start "
                               "squeezeout-server, or name another with --server.",
                               options_.server.host, options_.server.port, connection_.trouble()));
      std::this_thread::sleep_for(std::chrono::milliseconds{10});
    }
    return std::nullopt;
  }

  // For a picture: what the view shows of the planner is asked for and waited for.
  void work_out(const View& view) {
    const auto task = view.screen == Screen::what_if ? plan_ahead::Task::what_if : view.plan;
    if (view.screen != Screen::what_if && view.screen != Screen::plan) return;
    plan_ahead::Worker& worker = desk_.of(task);
    using State = plan_ahead::Report::State;
    if (worker.news().state != State::idle && worker.news().task == task) return;
    worker.begin(task, {replica_.floor(), replica_.revision(), replica_.now(steady_now()),
                        replica_.since()});
    const Steady until = steady_now() + kPatience;
    while (worker.news().state == State::running) {
      if (steady_now() >= until) worker.stop();
      std::this_thread::sleep_for(std::chrono::milliseconds{10});
      connection_.exchange(replica_);  // or the picture says NOT LIVE
    }
  }

  look::Frame lay_out(const look::Scale& scale, const look::Letters& letters, float width,
                      float height) {
    return lay_out(session_.view(), scale, letters, width, height);
  }
  look::Frame lay_out(const View& view, const look::Scale& scale, const look::Letters& letters,
                      float width, float height) {
    const Steady steady = steady_now();
    const Instant now = replica_.now(steady);
    quotes_.look_at(replica_.revision(), now);
    return squeezeout::lay_out({.floor = replica_.floor(),
                                .now = now,
                                .link = replica_.link(steady),
                                .silent = replica_.silent_for(steady),
                                .facts_waiting = replica_.facts_waiting(),
                                .trouble = connection_.trouble(),
                                .view = view,
                                .scale = scale,
                                .letters = letters,
                                .quotes = quotes_,
                                .revision = replica_.revision(),
                                .plan = desk_.plans.news(),
                                .what_if = desk_.what_ifs.news(),
                                .width = width,
                                .height = height});
  }
  std::string dump(const look::Frame& frame, const look::Palette& palette,
                   const look::Scale& scale) const {
    const auto drawn = std::chrono::duration_cast<std::chrono::milliseconds>(
        std::chrono::system_clock::now().time_since_epoch());
    return look::dump_json({session_.view().screen, replica_.revision(), drawn.count()}, frame,
                           palette, scale);
  }

  Session& session() { return session_; }
  const Replica& replica() const { return replica_; }
  const platform::FontFiles& fonts() const { return fonts_; }

 private:
  const Options& options_;
  platform::FontFiles fonts_;
  Replica replica_;
  Connection connection_;
  plan_ahead::Desk desk_;
  Session session_;
  Quotes quotes_;
  bool identified_ = false;
};

look::Scale scale_of(const Prefs& prefs, float monitor_mm_per_px, int width, int height) {
  float mm = prefs.mm_per_px > 0 ? prefs.mm_per_px : monitor_mm_per_px;
  if (mm <= 0) mm = look::kUsualMmPerPx;
  const auto w = static_cast<float>(width), h = static_cast<float>(height);
  return {mm, h, look::fitting_text(prefs.text, w, h, mm),
          prefs.mm_per_px > 0 ? look::Measured::yes : look::Measured::no};
}

// Puts the text in place of the file at once: who reads it never sees half.
bool replace_file(const std::string& path, const std::string& text) {
  const std::string part = path + ".part";
  {
    std::ofstream out(part, std::ios::binary | std::ios::trunc);
    out << text;
    if (!out.flush()) return false;
  }
  std::error_code error;
  std::filesystem::rename(part, path, error);
  return !error;
}

// --- without a window ---

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
    (void)look::draw(device_.lay_out(view, scale, letters, w, h), ui);
    ImGui::Render();
    headless_->gl().paint(palette[look::Role::background], width, height);
    return platform::write_png(path, headless_->gl().picture(width, height));
  }

 private:
  std::unique_ptr<platform::Headless> headless_;
  Device& device_;
};

int run_shot(const Options& o, Device& device) {
  auto headless = platform::Headless::open(o.width, o.height);
  if (!headless) return say(kNoPicture, headless.error());
  Studio studio{std::move(*headless), device};
  if (const auto trouble = studio.shoot(device.session().view(), o.width, o.height, o.shot))
    return say(kNoPicture, *trouble);
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
    if (!headless) return say(kNoPicture, headless.error());
    Studio studio{std::move(*headless), device};
    for (const look::Theme theme : {look::Theme::dark, look::Theme::light})
      for (int i = 0; i < kScreens; ++i) {
        if (const auto trouble = device.exchange()) return say(kMistake, *trouble);
        View view = device.session().view();
        view.screen = static_cast<Screen>(i);
        view.prefs.theme = theme;
        view = with_subject(view, o, device.replica().floor(), device.replica().now(steady_now()));
        const std::string path =
            fmt::format("{}/{}-{}-{}x{}.png", o.shots, to_string(view.screen),
                        theme == look::Theme::dark ? "dark" : "light", size.width, size.height);
        if (const auto trouble = studio.shoot(view, size.width, size.height, path))
          return say(kNoPicture, *trouble);
        std::printf("%s\n", path.c_str());
      }
  }
  return 0;
}

int run_dump(const Options& o, Device& device) {
  const auto w = static_cast<float>(o.width), h = static_cast<float>(o.height);
  const Prefs& prefs = device.session().view().prefs;
  const look::Scale scale = scale_of(prefs, 0, o.width, o.height);
  const look::Letters letters = platform::letters_of(device.fonts(), scale);
  device.work_out(device.session().view());
  const std::string json =
      device.dump(device.lay_out(scale, letters, w, h), look::Palette{prefs.theme}, scale);
  if (o.dump->empty()) {
    std::fputs(json.c_str(), stdout);
    return 0;
  }
  if (!replace_file(*o.dump, json))
    return say(kNoPicture, *o.dump +
                               " cannot be written. Next: name a file in a folder that you "
                               "may write to.");
  return 0;
}

// --- with a window ---

class WindowRun {
 public:
  WindowRun(const Options& o, platform::Window& window, Device& device)
      : options_(o), window_(window), device_(device) {
    if (!o.record.empty()) record_.open(o.record, std::ios::app);
    resized();
  }

  int loop() {
    while (!window_.closing()) {
      window_.wait(frames_due_ > 0 ? 0.0 : seconds_to_tick());
      if (const auto trouble = device_.exchange()) return say(kMistake, *trouble);
      if (window_.take_input()) frames_due_ = 3;  // ImGui sees a press, its release, and the rest
      if (window_.width() != width_ || window_.height() != height_ ||
          device_.session().view().prefs != prefs_)
        resized();
      step();
    }
    return 0;
  }

 private:
  double seconds_to_tick() const {
    const std::int64_t past = device_.replica().now_ms(steady_now()) % 1000;
    return static_cast<double>(std::clamp<std::int64_t>(1000 - past, 100, 1000)) / 1000;
  }

  void resized() {
    width_ = window_.width(), height_ = window_.height();
    prefs_ = device_.session().view().prefs;
    palette_ = look::Palette{prefs_.theme};
    scale_ = scale_of(prefs_, window_.mm_per_px(), width_, height_);
    letters_.emplace(platform::letters_of(device_.fonts(), scale_));
    fonts_ = platform::bake_fonts(device_.fonts(), *letters_);
    window_.gl().fonts_changed();
    frames_due_ = std::max(frames_due_, 1);
    shown_ = {};
  }

  void step() {
    look::Frame frame =
        device_.lay_out(scale_, *letters_, static_cast<float>(width_), static_cast<float>(height_));
    const bool changed = !look::same_picture(frame, shown_);
    if (!changed && frames_due_ == 0) return;
    if (frames_due_ > 0) --frames_due_;

    window_.begin_frame();
    ui_.keys = window_.take_keys();
    if (options_.screen == Screen::wall) ui_.keys.clear();  // the wall takes no input
    const auto pressed = look::draw(frame, ui_);
    ImGui::Render();
    const bool held = ImGui::IsAnyItemActive();
    if (changed || held || held_) {
      window_.gl().paint(palette_[look::Role::background], width_, height_);
      window_.show();
    }
    held_ = held;
    if (changed && !options_.dump_every_change.empty())
      replace_file(options_.dump_every_change, device_.dump(frame, palette_, scale_));
    shown_ = std::move(frame);
    if (pressed) press(*pressed);
  }

  void press(const look::Pressed& pressed) {
    if (record_.is_open())
      record_ << fmt::format(R"({{"id":{},"by":"{}","intent":{}}})", json_string(pressed.id),
                             pressed.by == look::Pressed::By::key ? "key" : "mouse",
                             to_json(pressed.intent))
              << std::endl;
    device_.session().press(pressed.intent, steady_now());
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
  const bool wall = o.screen == Screen::wall;
  auto window = platform::Window::open({.title = wall ? "squeezeout wall" : "squeezeout bench",
                                        .width = o.width,
                                        .height = o.height,
                                        .cover = o.cover == Options::Cover::fullscreen
                                                     ? platform::WindowWish::Cover::fullscreen
                                                     : platform::WindowWish::Cover::window});
  if (!window) return say(kNoPicture, window.error());
  Device device{o, std::move(fonts), [] { platform::Window::wake(); }};
  return WindowRun{o, **window, device}.loop();
}

}  // namespace

int run(const Options& o) {
  words::speak(o.language);
  auto fonts = platform::read_fonts();
  if (!fonts) return say(kNoPicture, fonts.error());
  if (o.shot.empty() && o.shots.empty() && !o.dump) return run_window(o, std::move(*fonts));

  Device device{o, std::move(*fonts), [] {}};
  if (const auto code = device.wait_for_floor()) return *code;
  if (!o.shots.empty()) return run_shots(o, device);
  if (!o.shot.empty())
    if (const int code = run_shot(o, device); code != 0) return code;
  return o.dump ? run_dump(o, device) : 0;
}

}  // namespace squeezeout
