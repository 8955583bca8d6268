#include "client/device.h"

#include <fmt/format.h>

#include <cstdlib>
#include <thread>

#include "client/lay_out.h"
#include "client/leave.h"
#include "client/look/dump.h"
#include "client/view/next.h"

namespace squeezeout {
namespace {

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

}  // namespace

look::Scale scale_of(const Prefs& prefs, float monitor_mm_per_px, int width, int height) {
  float mm = prefs.mm_per_px > 0 ? prefs.mm_per_px : monitor_mm_per_px;
  if (mm <= 0) mm = look::kUsualMmPerPx;
  const auto w = static_cast<float>(width), h = static_cast<float>(height);
  return {mm, h, look::fitting_text(prefs.text, w, h, mm),
          prefs.mm_per_px > 0 ? look::Measured::yes : look::Measured::no};
}

Device::Device(const Options& options, platform::FontFiles fonts, const std::function<void()>& wake)
    : options_(options),
      fonts_(std::move(fonts)),
      replica_(device_id(device_file())),
      connection_(options.server, wake),
      desk_(plan_ahead::of_the_floor(), wake),
      session_(replica_, desk_, view_of(options), new_command_id) {}

View Device::with_subject(View v) const {
  const Floor& floor = replica_.floor();
  const Instant now = replica_.now(steady_now());
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
      if (options_.recipe.empty() ? r.usual : r.key == options_.recipe) {
        v.wanted.recipe = r.id;
        break;
      }
    for (const AdhesiveSheet& sheet : floor.shop->sheets)
      if (sheet.key == options_.glue) v.wanted.sheet = sheet.id;
  }
  return v;
}

std::optional<std::string> Device::exchange() {
  connection_.exchange(replica_);
  session_.take_answers(steady_now());
  if (!identified_ && replica_.caught_up() && replica_.floor().shop) {
    auto view = identify(session_.view(), options_.who, replica_.floor());
    if (!view) return view.error();
    session_.look_at(with_subject(std::move(*view)));
    identified_ = true;
  }
  return std::nullopt;
}
std::optional<int> Device::wait_for_floor() {
  const Steady until = steady_now() + kPatience;
  while (!identified_) {
    if (const auto trouble = exchange()) return leave(kMistake, *trouble);
    if (identified_) break;
    if (steady_now() > until)
      return leave(kNoServer,
                   fmt::format("no server answered at {}:{} within 10 s. {} Next: start "
                               "squeezeout-server, or name another with --server.",
                               options_.server.host, options_.server.port, connection_.trouble()));
    std::this_thread::sleep_for(std::chrono::milliseconds{10});
  }
  return std::nullopt;
}

void Device::work_out(const View& view) {
  const auto task = view.screen == Screen::what_if ? plan_ahead::Task::what_if : view.plan;
  if (view.screen != Screen::what_if && view.screen != Screen::plan) return;
  plan_ahead::Worker& worker = desk_.of(task);
  using State = plan_ahead::Report::State;
  if (worker.news().state != State::idle && worker.news().task == task) return;
  worker.begin(
      task, {replica_.floor(), replica_.revision(), replica_.now(steady_now()), replica_.since()});
  const Steady until = steady_now() + kPatience;
  while (worker.news().state == State::running) {
    if (steady_now() >= until) worker.stop();
    std::this_thread::sleep_for(std::chrono::milliseconds{10});
    connection_.exchange(replica_);  // or the picture says NOT LIVE
  }
}

look::Frame Device::lay_out(const View& view, const look::Scale& scale,
                            const look::Letters& letters, float width, float height) {
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
std::string Device::dump(const look::Frame& frame, const View& view,
                         const look::Scale& scale) const {
  const auto drawn = std::chrono::duration_cast<std::chrono::milliseconds>(
      std::chrono::system_clock::now().time_since_epoch());
  return look::dump_json({view.screen, replica_.revision(), drawn.count()}, frame,
                         look::Palette{view.prefs.theme}, scale);
}

}  // namespace squeezeout
