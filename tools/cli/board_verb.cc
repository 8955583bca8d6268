#include <map>

#include "tools/cli/board.h"
#include "tools/cli/times.h"
#include "tools/cli/verbs.h"

namespace squeezeout::cli {
namespace {

struct BoardArgs {
  By by = By::gear;
  double hours = 8;
  std::string from;
};

const char* fill_word(Fill fill) {
  switch (fill) {
    case Fill::planned:
      return "planned";
    case Fill::open:
      return "open";
    case Fill::clamped:
      return "clamped";
    case Fill::over:
      return "over_time";
    case Fill::waiting:
      return "waiting";
    case Fill::spoiled:
      return "spoiled";
  }
  CHECK(!"a fill outside the enumeration");
}

Json lanes_json(const words::Context& c, const std::vector<Lane>& lanes) {
  Json out = Json::array();
  for (const Lane& lane : lanes) {
    Json bars = Json::array();
    for (const Bar& bar : lane.bars) {
      Json segments = Json::array();
      for (const Segment& s : bar.segments)
        segments.push_back({{"begin", time_json(c, s.span.begin)},
                            {"end", time_json(c, s.span.end)},
                            {"shows", fill_word(s.fill)}});
      bars.push_back(
          {{"glue_up", bar.glue_up.value}, {"label", bar.label}, {"segments", segments}});
    }
    out.push_back({{"lane", lane.key}, {"name", lane.name}, {"bars", bars}});
  }
  return out;
}

void say_board(Tool& tool, const BoardArgs& args) {
  (void)tool.session().shop();
  const words::Context c = tool.session().context();
  const Seconds length{static_cast<std::int64_t>(args.hours * 3600)};
  const Instant begin =
      args.from.empty() ? c.now - length * 3 / 10 : read_time(c, args.from, Tense::coming);
  const Span window{begin, begin + length};
  const std::vector<Lane> lanes = lay_out_board(c, args.by, window);
  tool.print(draw_board(c, lanes, window), {{"now", time_json(c, c.now)},
                                            {"begin", time_json(c, window.begin)},
                                            {"end", time_json(c, window.end)},
                                            {"lanes", lanes_json(c, lanes)}});
}

}  // namespace

void add_board_verb(CLI::App& app, Tool& tool) {
  const auto args = std::make_shared<BoardArgs>();
  CLI::App& verb = add_verb(
      app, tool, "board", "The board: lanes by gear, bench or builder; time runs right",
      "squeezeout board --by builder --hours 24", [args](Tool& t) { say_board(t, *args); });
  const std::map<std::string, By> words{
      {"gear", By::gear}, {"bench", By::bench}, {"builder", By::builder}};
  verb.add_option("--by", args->by, "gear, bench or builder")
      ->transform(CLI::CheckedTransformer(words))
      ->type_name("WHAT");
  verb.add_option("--hours", args->hours, "How long the axis is")
      ->check(CLI::Range(0.5, 336.0))
      ->capture_default_str();
  verb.add_option("--from", args->from,
                  "Where it begins. Left out: now stands at 30 % of its width")
      ->type_name("TIME");
}

}  // namespace squeezeout::cli
