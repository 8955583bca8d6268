#include "client/look/intent.h"

#include <fmt/format.h>

#include <array>

namespace squeezeout {
namespace {

template <class... F>
struct Overloaded : F... {
  using F::operator()...;
};

std::string one_text(const char* what, const char* name, std::string_view text) {
  return fmt::format(R"({{"do":"{}","{}":{}}})", what, name, json_string(text));
}

std::string glue_up(const char* command, GlueUpId id) {
  return fmt::format(R"("command":"{}","glue_up":{})", command, id.value);
}

std::string body_json(const Body& body) {
  const auto gear = [](const char* command, GearKindId kind, int count) {
    return fmt::format(R"("command":"{}","kind":{},"count":{})", command, kind.value, count);
  };
  return std::visit(
      Overloaded{
          [](const LoadShop&) { return std::string(R"("command":"load")"); },
          [](const Reserve& c) {
            return fmt::format(
                R"("command":"reserve","recipe":{},"build":{},"step":{},"builder":{},"bench":{},"sheet":{})",
                c.recipe.value, c.build.value, c.step, c.builder.value, c.bench.value,
                c.sheet.value);
          },
          [](const Move& c) { return glue_up("move", c.glue_up); },
          [](const Cancel& c) { return glue_up("cancel", c.glue_up); },
          [](const Start& c) { return glue_up("start", c.glue_up); },
          [](const ClampsOn& c) { return glue_up("on", c.glue_up); },
          [](const ClampsOff& c) { return glue_up("off", c.glue_up); },
          [](const Scraped& c) { return glue_up("scraped", c.glue_up); },
          [](const Late& c) {
            return glue_up("late", c.glue_up) + fmt::format(R"(,"seconds":{})", c.by.count());
          },
          [](const Spoiled& c) { return glue_up("spoiled", c.glue_up); },
          [](const Undo& c) { return glue_up("undo", c.glue_up); },
          [&](const GearBroken& c) { return gear("broken", c.kind, c.count); },
          [&](const GearMended& c) { return gear("mended", c.kind, c.count); },
          [&](const SetStock& c) { return gear("stock", c.kind, c.count); },
          [](const ClimateReading&) { return std::string(R"("command":"climate")"); },
          [](const Tick&) { return std::string(R"("command":"tick")"); },
          [](const ReadClimate&) { return std::string(R"("command":"readings")"); },
          [](const SetForecast& c) {
            return fmt::format(R"("command":"forecast","points":{})", c.points.size());
          },
          [](const PutLot& c) {
            return fmt::format(R"("command":"lot","lot":{},"sheet":{},"used_up":{})",
                               c.lot.id.value, c.lot.sheet.value, c.lot.used_up);
          },
          [](const MixPot& c) {
            return fmt::format(R"("command":"mix","sheet":{},"bench":{})", c.sheet.value,
                               c.bench.value);
          },
          [](const AdoptPlan& c) {
            return fmt::format(R"("command":"adopt","moves":{})", c.moves.size());
          },
          [](const UndoPlan& c) {
            return fmt::format(R"("command":"undo_plan","plan":{})", c.plan.value);
          },
      },
      body);
}

}  // namespace

std::string_view to_string(Screen s) {
  static constexpr std::array<std::string_view, kScreens> names{
      "bench", "reserve", "card", "board", "wall",    "day",  "snags",
      "gear",  "figures", "air",  "plan",  "what-if", "setup"};
  return names[static_cast<std::size_t>(s)];
}

std::string to_json(const Intent& intent) {
  const auto number = [](const char* name, int n) {
    return fmt::format(R"({{"do":"{}","by":{}}})", name, n);
  };
  return std::visit(
      Overloaded{
          [](const Ask& i) { return fmt::format(R"({{"do":"ask",{}}})", body_json(i.body)); },
          [](const Go& i) {
            return fmt::format(R"({{"do":"go","screen":"{}","glue_up":{}}})", to_string(i.screen),
                               i.glue_up.value);
          },
          [](const Back&) { return std::string(R"({"do":"back"})"); },
          [](const Pick& i) {
            return fmt::format(R"({{"do":"pick","recipe":{},"build":{},"step":{}}})",
                               i.wanted.recipe.value, i.wanted.build.value, i.wanted.step);
          },
          [&](const ShowTiles& i) { return number("tiles", static_cast<int>(i.tiles)); },
          [&](const ByLanes& i) { return number("lanes", static_cast<int>(i.lanes)); },
          [&](const Zoom& i) { return number("zoom", i.by); },
          [&](const Pan& i) { return number("pan", i.by); },
          [&](const Turn& i) { return number("turn", i.pages); },
          [&](const ShowDay& i) { return number("day", i.days); },
          [](const ChooseGear& i) {
            return fmt::format(R"({{"do":"gear","kind":{}}})", i.kind.value);
          },
          [](const ShowFigures& i) {
            return fmt::format(R"({{"do":"figures","glue_up":{}}})", i.glue_up.value);
          },
          [](const SetAir& i) {
            return fmt::format(
                R"({{"do":"air","celsius":{},"humidity":{},"low":{},"from":{},"to":{},"sheet":{}}})",
                i.air.celsius, i.air.humidity, i.air.low, i.air.from, i.air.to, i.air.sheet.value);
          },
          [](const PlanAhead& i) {
            static constexpr std::array<std::string_view, 3> tasks{"repair", "replan", "what-if"};
            return fmt::format(R"({{"do":"plan","task":"{}"}})",
                               tasks[static_cast<std::size_t>(i.task)]);
          },
          [](const StopPlanning&) { return std::string(R"({"do":"stop-planning"})"); },
          [](const RefusePlan&) { return std::string(R"({"do":"refuse-plan"})"); },
          [](const ShowChain& i) {
            return fmt::format(R"({{"do":"chain","shown":{}}})", i.chain == Chain::shown);
          },
          [](const PickBar& i) {
            return fmt::format(R"({{"do":"pick-bar","glue_up":{}}})", i.glue_up.value);
          },
          [](const OnlyBuild& i) {
            return fmt::format(R"({{"do":"only-build","build":{}}})", i.build.value);
          },
          [](const OnlyLane& i) {
            return fmt::format(R"({{"do":"only-lane","lane":{}}})", json_string(i.lane));
          },
          [](const OtherTime& i) {
            return fmt::format(R"({{"do":"other-time","glue_up":{},"wish":{}}})", i.glue_up.value,
                               i.wish.time_since_epoch().count());
          },
          [](const AskHolderToMove& i) {
            return fmt::format(R"({{"do":"ask-holder","glue_up":{}}})", i.glue_up.value);
          },
          [](const ReallyOff& i) {
            return fmt::format(R"({{"do":"really-off","glue_up":{}}})", i.glue_up.value);
          },
          [](const ShowHelp& i) {
            return fmt::format(R"({{"do":"help","open":{}}})", i.help == Help::open);
          },
          [](const SetPrefs& i) {
            return fmt::format(R"({{"do":"prefs","text":{:.2f},"mm_per_px":{:.4f}}})", i.prefs.text,
                               i.prefs.mm_per_px);
          },
          [](const Quiet&) { return std::string(R"({"do":"quiet"})"); },
          [](const PrintLabel& i) {
            return fmt::format(R"({{"do":"label","glue_up":{}}})", i.glue_up.value);
          },
          [](const StandAt& i) {
            return fmt::format(R"({{"do":"stand-at","bench":{},"builder":{}}})", i.bench.value,
                               i.builder.value);
          },
          [](const Focus& i) { return one_text("focus", "field", i.field); },
          [](const Typed& i) { return one_text("typed", "field", i.field); },
          [](const ShowSetup& i) {
            return fmt::format(R"({{"do":"setup","page":{},"day":{}}})", static_cast<int>(i.page),
                               i.day);
          },
          [](const EditShop& i) {
            return fmt::format(R"({{"do":"edit","what":"{}","at":{},"by":{},"text":{}}})",
                               draft::to_string(i.edit.what), i.edit.at, i.edit.by,
                               json_string(i.edit.text));
          },
          [](const DoDraft& i) {
            static constexpr std::array<std::string_view, 4> words{"try", "open", "put-away",
                                                                   "back"};
            return one_text("draft", "what", words[static_cast<std::size_t>(i.what)]);
          },
          [](const ReadFile& i) { return one_text("read-file", "path", i.path); },
          [](const FileRead& i) { return one_text("file-read", "name", i.name); },
          [](const WriteShop& i) { return one_text("write-shop", "path", i.path); },
          [](const FileWritten& i) { return one_text("file-written", "name", i.name); },
          [](const TrySound&) { return std::string(R"({"do":"try-sound"})"); },
      },
      intent);
}

std::string json_string(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\')
      out += '\\', out += c;
    else if (static_cast<unsigned char>(c) < 0x20)
      out += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
    else
      out += c;
  }
  return out += '"';
}

}  // namespace squeezeout
