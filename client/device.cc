#include "client/device.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <thread>

#include "client/lay_out.h"
#include "client/leave.h"
#include "client/look/dump.h"
#include "client/settings/zones.h"
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
Prefs prefs_of(const Options& o, Prefs p) {
  if (o.theme) p.theme = *o.theme;
  if (o.mm_per_px > 0) p.mm_per_px = o.mm_per_px;
  if (o.text > 0) p.text = o.text;
  return p;
}

View view_of(const Options& o, const settings::Settings& s) {
  View v;
  v.screen = o.screen;
  v.prefs = prefs_of(o, s.prefs);
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

Device::Device(const Options& options, platform::FontFiles fonts, settings::Store store,
               const settings::Settings& settings, const std::function<void()>& wake)
    : options_(options),
      store_(std::move(store)),
      kept_(settings),
      fonts_(std::move(fonts)),
      replica_(device_id(device_file())),
      connection_(options.server, wake),
      desk_(plan_ahead::of_the_floor(), wake),
      session_(replica_, desk_, view_of(options, settings), new_command_id) {
  View view = session_.view();
  std::string trouble;
  view.draft.zones = settings::zones_of_this_system();
  view.draft.shop = store_.read_draft(trouble);
  if (!trouble.empty()) view.message = Message{.tone = Message::Tone::refused, .what = trouble};
  session_.look_at(std::move(view));
  seen_ = settings_now();
}

settings::Settings Device::settings_now() const {
  const View& view = session_.view();
  settings::Settings s{view.prefs, seen_.bench, seen_.builder};  // while there is no floor to ask
  if (const Bench* bench = replica_.floor().bench(view.bench)) s.bench = bench->key;
  if (const Builder* builder = replica_.floor().builder(view.builder)) s.builder = builder->key;
  return s;
}

void Device::keep() {
  const settings::Settings now = settings_now();
  const auto pressed = [&](auto part) {
    if (part(now) != part(seen_)) part(kept_) = part(now);
  };
  pressed([](auto& s) -> auto& { return s.prefs.theme; });
  pressed([](auto& s) -> auto& { return s.prefs.text; });
  pressed([](auto& s) -> auto& { return s.prefs.mm_per_px; });
  pressed([](auto& s) -> auto& { return s.prefs.sound; });
  pressed([](auto& s) -> auto& { return s.prefs.lamp; });
  pressed([](auto& s) -> auto& { return s.prefs.printer; });
  pressed([](auto& s) -> auto& { return s.bench; });
  pressed([](auto& s) -> auto& { return s.builder; });
  seen_ = now;
  auto trouble = store_.keep(kept_);
  if (auto other = store_.keep(session_.view().draft.shop)) trouble = std::move(other);
  if (!trouble) return;
  View view = session_.view();
  view.message =
      Message{.tone = Message::Tone::refused, .what = words::tr("Not kept."), .why = *trouble};
  session_.look_at(std::move(view));
}

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

// The command line's word; else where the settings say, when this shop knows it: another shop may not.
Identity Device::who() const {
  const Shop& shop = *replica_.floor().shop;
  Identity who = options_.who;
  const auto known = [](const auto& things, const std::string& key) {
    return std::any_of(things.begin(), things.end(), [&](const auto& t) { return t.key == key; });
  };
  if (!who.bench.empty() || !who.builder.empty()) return who;
  if (known(shop.benches, kept_.bench)) who.bench = kept_.bench;
  if (known(shop.builders, kept_.builder)) who.builder = kept_.builder;
  return who;
}

std::optional<std::string> Device::exchange() {
  connection_.exchange(replica_);
  session_.take_answers(steady_now());
  if (!identified_ && replica_.caught_up() && replica_.floor().shop) {
    auto view = identify(session_.view(), who(), replica_.floor());
    if (!view) return view.error();
    session_.look_at(with_subject(std::move(*view)));
    identified_ = true;
    seen_ = settings_now();
  }
  keep();
  return std::nullopt;
}

void Device::press(const Intent& intent) {
  const Steady steady = steady_now();
  const Instant now = replica_.now(steady);
  if (const auto* ask = std::get_if<Ask>(&intent)) alarms_.press(ask->body, now);
  if (std::holds_alternative<Quiet>(intent)) alarms_.quiet();
  if (std::holds_alternative<TrySound>(intent)) outlets_.try_sound();
  draft::ShopState shop = session_.view().draft.shop;
  const auto& running = replica_.floor().shop;
  if (!shop && running && std::holds_alternative<WriteShop>(intent))
    shop = std::make_shared<const Shop>(*running);
  session_.press(settings::errand(intent, shop), steady);
  if (const auto* label = std::get_if<PrintLabel>(&intent))
    session_.tell(outlets_.print({replica_.floor(), now}, label->glue_up, session_.view().prefs,
                                 session_.view().typing));
}

void Device::sound_alarms() {
  const words::Context c{replica_.floor(), replica_.now(steady_now())};
  if (auto message = outlets_.look(alarmed_, c, session_.view().prefs, session_.view().typing))
    session_.tell(std::move(*message));
  alarmed_.sound = alarm::Sound::none;
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
  if (options_.screen != Screen::wall)  // a wall is nobody's bench
    alarmed_ = alarms_.look({replica_.floor(), now, view.bench, view.builder, replica_.link(steady),
                             replica_.facts_waiting()});
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
                              .alarms = alarmed_,
                              .loudspeaker = outlets_.loudspeaker(),
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
