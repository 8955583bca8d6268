#include "server/demo/week.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "common/floor/ask.h"
#include "common/floor/decide.h"

namespace squeezeout {

extern const char kDemoShop[];

std::string_view demo_shop_text() { return kDemoShop; }

namespace {

constexpr Seconds kWeek = std::chrono::days{7};
constexpr Seconds kQuiet =
    std::chrono::minutes{150};  // before now: the scene alone starts what runs at the end

template <class Thing>
auto id_of(const std::vector<Thing>& things, std::string_view key) {
  const auto it =
      std::find_if(things.begin(), things.end(), [&](const Thing& t) { return t.key == key; });
  return it == things.end() ? decltype(it->id){} : it->id;
}

// Shop jobs that run, or are promised, at the end: when they begin, counted from now, and who does them.
struct SceneJob {
  std::chrono::minutes begin;
  std::string_view recipe, builder;
};
constexpr SceneJob kScene[] = {
    {std::chrono::minutes{-240}, "binding-wood", "maeve"},
    {std::chrono::minutes{-150}, "end-block", "ida"},
    {std::chrono::minutes{-120}, "close-top", "tom"},
    {std::chrono::minutes{-77}, "rosette", "ren"},
    {std::chrono::minutes{-44}, "headplate", "bea"},
    {std::chrono::minutes{-13}, "lining-bass", "oskar"},
};
constexpr std::string_view kForgotten = "rosette";  // its clamps should be off; nobody has come
constexpr SceneJob kPromised[] = {
    {std::chrono::minutes{65}, "join-top", "tom"},
    {std::chrono::minutes{90}, "inlay", "ren"},
    {std::chrono::hours{19}, "top-braces-1", "oskar"},
};
// Two want the same hour tomorrow, and all block cauls together; one caul breaks. One of them loses its place and can have another:
// a repair.
constexpr std::string_view kShared = "block-caul", kSharedBy = "end-block";
constexpr SceneJob kSharing[] = {
    {std::chrono::hours{23}, kSharedBy, "ren"},
    {std::chrono::hours{23}, kSharedBy, "bea"},
};
// One breaks on the last day, and the glue-up that was promised it loses its place. There is no other.
struct Fragile {
  std::string_view gear, recipe;
};
constexpr Fragile kFragile[] = {
    {"bridge-caul", "bridge"}, {"heel-caul", "neck-joint"}, {"scarf-stop", "scarf"}};

// Six builders at work, minute by minute, each on an own build; a scene of shop jobs at the end.
class Week {
 public:
  Week(const Shop& shop, Instant now)
      : now_(now), t_(std::chrono::floor<std::chrono::hours>(now - kWeek)) {
    press(LoadShop{shop}, {});
    for (const Builder& b : floor_.shop->builders) {
      open_[b.id] = floor_.hours_for(b.id).open_spans({t_, now_ + std::chrono::days{3}});
    }
  }

  std::vector<Stamped> run() {
    const Instant begin = t_;
    for (; t_ < now_; t_ += Minutes{1}) {
      if (t_ - begin == std::chrono::hours{27})
        press(GearBroken{gear("cam"), 1, "pad torn off"}, {});
      if (t_ - begin == std::chrono::hours{50}) press(GearMended{gear("cam"), 1}, {});
      if (now_ - t_ == std::chrono::minutes{125}) lose_a_place();
      if (now_ - t_ == std::chrono::minutes{40}) break_a_shared_one();
      if (now_ - t_ == std::chrono::minutes{45}) promise();
      read_climate();
      start_scene();
      for (const Builder& b : floor_.shop->builders) {
        if (is_open(b.id)) work(b);
      }
    }
    press(ClimateReading{{21.0}, {46}}, {});
    return std::move(commands_);
  }

 private:
  RecipeId recipe(std::string_view key) const { return id_of(floor_.shop->recipes, key); }
  GearKindId gear(std::string_view key) const { return id_of(floor_.shop->gear, key); }
  BuilderId builder(std::string_view key) const { return id_of(floor_.shop->builders, key); }

  bool is_open(BuilderId b) const {
    const auto& spans = open_.at(b);
    return std::any_of(spans.begin(), spans.end(), [this](Span s) { return s.contains(t_); });
  }

  // Every press is on record, refused or not, so that the server comes to the same floor.
  bool press(Body body, BuilderId by) {
    CommandId id;
    const std::uint64_t n = commands_.size() + 1;
    for (std::size_t i = 0; i < 8; ++i) id.bytes[i] = static_cast<std::uint8_t>(n >> (8 * i));
    id.bytes[15] = 0xD3;
    DeviceId device;
    device.bytes[0] = static_cast<std::uint8_t>(by.value);
    device.bytes[15] = 0xD3;
    commands_.push_back({id, device, t_, std::move(body)});
    return step(floor_, commands_.back()).answer.has_value();
  }

  // A few minutes that differ from one glue-up to the next; the scene is punctual.
  Seconds slack(const GlueUp& g) const {
    return Minutes{scene_.contains(g.id) ? 0 : (g.id.value * 5) % 4};
  }

  void read_climate() {
    const Seconds day = t_ - std::chrono::floor<std::chrono::days>(t_);
    if (day != std::chrono::hours{9} && day != std::chrono::hours{13}) return;
    const auto n = static_cast<double>(t_.time_since_epoch() / std::chrono::hours{4} % 5);
    press(ClimateReading{{20.5 + n / 5}, {44 + n}}, {});
  }

  void work(const Builder& b) {
    for (const auto& [id, g] : floor_.glue_ups) {
      if (g.builder != b.id || !live(g)) continue;
      if (press_next(GlueUp{g}, b)) return;  // one press a minute; the record changes under it
    }
    for (const Build& build : floor_.shop->builds) {
      if (build.builder == b.id) plan_ahead(build);
    }
  }

  // The Next key, when its time has come.
  bool press_next(const GlueUp& g, const Builder& b) {
    switch (g.progress) {
      case Progress::
          reserved: {  // and again every five minutes, while somebody's clamps are still on
        const Seconds since = t_ - g.times.open_begin - slack(g);
        return since >= Seconds{0} && since % Minutes{5} < Minutes{1} && press(Start{g.id}, b.id);
      }
      case Progress::open: {
        if (t_ < *g.started_at + g.demand.assembly - Minutes{1} + slack(g) / 2) return false;
        const bool skins =
            !spoiled_ && now_ - t_ < std::chrono::days{5} && now_ - t_ > std::chrono::days{2};
        if (!skins) return press(ClampsOn{g.id, t_}, b.id);
        spoiled_ = true;
        return press(Spoiled{g.id, t_, "the glue had skinned"}, b.id);
      }
      case Progress::clamped:
        if (g.id == forgotten_) return false;
        if (g.id.value % 6 == 0 && late_.insert(g.id).second)
          return press(Late{g.id, Minutes{10}}, b.id);
        return t_ >= std::max(off_from(g), g.times.release_begin) + slack(g) &&
               press(ClampsOff{g.id, t_}, b.id);
      case Progress::waiting: {
        const bool works = !floor_.recipe(g.recipe)->finish.empty();
        return works && t_ >= g.times.ready_at + Minutes{5} + slack(g) &&
               press(Scraped{g.id, t_}, b.id);
      }
      case Progress::displaced: {
        if (lost_.contains(g.id)) return false;
        const auto quote = earliest_for(floor_, g.id, t_ + Minutes{10}, t_);
        return quote && press(Move{g.id, quote->slot.times.stage_begin}, b.id);
      }
      default:
        return false;
    }
  }

  // Reserves the next step of a build, out of the scene's way.
  void plan_ahead(const Build& build) {
    const auto next = next_step(floor_, build.id);
    if (!next) return;
    for (const auto& [id, g] : floor_.glue_ups) {
      if (g.build == build.id && live(g) && g.progress != Progress::waiting) return;
    }
    Reserve wanted;
    wanted.recipe = next->recipe;
    wanted.build = build.id;
    wanted.step = next->step;
    wanted.builder = build.builder;
    wanted.after = t_ + Minutes{10};
    auto quote = earliest(floor_, wanted, t_);
    if (!quote) return;
    const Instant begin = quote->slot.times.stage_begin;
    if (begin > now_ - kQuiet && begin <= now_ + Minutes{15}) wanted.after = now_ + Minutes{15};
    if (begin - t_ < std::chrono::hours{30}) press(wanted, build.builder);
  }

  GlueUpId reserve(std::string_view recipe_key, std::string_view builder_key, Instant after) {
    Reserve wanted;
    wanted.recipe = recipe(recipe_key);
    wanted.builder = builder(builder_key);
    wanted.after = after;
    if (!wanted.recipe || !wanted.builder || !press(wanted, wanted.builder)) return {};
    return GlueUpId{floor_.last_glue_up};
  }

  void start_scene() {
    for (const SceneJob& job : kScene) {
      if (now_ + job.begin != t_ || !is_open(builder(job.builder))) continue;
      const GlueUpId id = reserve(job.recipe, job.builder, t_);
      scene_.insert(id);
      if (job.recipe == kForgotten) forgotten_ = id;
    }
  }

  void promise() {
    for (const SceneJob& job : kPromised) reserve(job.recipe, job.builder, now_ + job.begin);
  }

  void lose_a_place() {
    for (const Fragile& f : kFragile) {
      const GearKindId kind = gear(f.gear);
      if (!kind || floor_.gear.free_over(kind, {t_, now_}) == 0) continue;
      const GlueUpId id = reserve(f.recipe, "ida", now_ + std::chrono::hours{18});
      lost_.insert(id);
      if (id && press(GearBroken{kind, 1, "cracked"}, builder("ida"))) return;
    }
  }

  void break_a_shared_one() {
    for (const SceneJob& job : kSharing)
      lost_.insert(reserve(job.recipe, job.builder, now_ + job.begin));
    press(GearBroken{gear(kShared), 1, "split"}, builder("bea"));
  }

  Instant now_, t_;
  Floor floor_;
  std::vector<Stamped> commands_;
  std::map<BuilderId, std::vector<Span>> open_;
  std::set<GlueUpId> late_, scene_, lost_;  // lost: those that stay without a place
  GlueUpId forgotten_;
  bool spoiled_ = false;
};

}  // namespace

std::vector<Stamped> demo_week(const Shop& shop, Instant now) { return Week(shop, now).run(); }

}  // namespace squeezeout
