// Looking at the floor: lists, one glue-up, snags, the wall, the day sheet, the connection's health.

#include <fmt/format.h>

#include "client/words/columns.h"
#include "client/words/day_words.h"
#include "common/floor/ask.h"
#include "proto/shop_file.h"
#include "tools/cli/times.h"
#include "tools/cli/verbs.h"

namespace squeezeout::cli {
namespace {

using words::Align;
using Rows = std::vector<std::vector<std::string>>;

std::string number(GlueUpId id) { return fmt::format("{}", id.value); }

// ---- list ----

void say_list(Tool& tool, bool all) {
  const words::Context c = tool.session().context();
  Rows rows;
  Json list = Json::array();
  for (const auto& [id, g] : c.floor.glue_ups) {
    if (!all && !live(g)) continue;
    rows.push_back({number(id), words::title(c, g), words::builder(c, g.builder),
                    words::bench(c, g.bench), words::phase(c, g)});
    list.push_back(glue_up_json(c, g));
  }
  const std::string text = rows.empty() ? "Nothing is glued or reserved.\n"
                                        : words::table({{"no.", Align::right},
                                                        {"glue-up"},
                                                        {"builder"},
                                                        {"bench"},
                                                        {"stands", Align::left, 70}},
                                                       rows);
  tool.print(text, list);
}

// ---- show ----

const GlueUp& find_glue_up(const words::Context& c, std::uint32_t id) {
  if (const GlueUp* g = c.floor.glue_up(GlueUpId{id})) return *g;
  wrong_use(fmt::format("There is no glue-up {} here.", id),
            "It is not among those of the last days.", "squeezeout list --all shows them.");
}

void add_line(std::string& to, const char* name, const std::string& what) {
  if (!what.empty()) to += words::left(name, 10) + what + "\n";
}

std::string shown(const words::Context& c, const GlueUp& g) {
  std::string out = fmt::format("Glue-up {}, {}\n", g.id.value, words::title(c, g));
  add_line(out, "stands", words::phase(c, g));
  add_line(out, "builder", words::builder(c, g.builder) + ", " + words::bench(c, g.bench));
  add_line(out, "glue", words::glue(c, g));
  if (const Lot* lot = c.floor.lot(g.lot))
    add_line(out, "bottle", lot->label.empty() ? fmt::format("{}", lot->id.value) : lot->label);
  if (const Pot* pot = c.floor.pot(g.pot))
    add_line(out, "pot", fmt::format("{}, sets {}", pot->id.value, words::clock(c, pot->until)));
  add_line(out, "reason", g.reason);
  add_line(out, "gear", g.held.empty() ? "" : words::gear(c, g.held));
  add_line(out, "start", words::clock(c, g.times.stage_begin));
  if (const auto by = clamps_on_by(g); by && !g.clamped_at)
    add_line(out, "on by", words::clock(c, *by));
  add_line(out, "off",
           fmt::format("{}, clamped {}", words::clock(c, g.times.release_begin),
                       words::length(g.demand.dwell)));
  add_line(out, "ready", words::clock(c, g.times.ready_at));
  if (g.times.release_begin > off_from(g) && !g.off_at)
    add_line(out, "note", "it can come off from " + words::clock(c, off_from(g)));
  add_line(out, "weather", g.weather ? words::weather(c, g) : "");
  add_line(out, "snag", words::snag(c, g));
  add_line(out, "said", g.note);
  return out;
}

// ---- snags ----

void say_snags(Tool& tool) {
  const words::Context c = tool.session().context();
  std::string text;
  Json list = Json::array();
  const auto add = [&](const GlueUp& g, const std::string& what, const std::string& next) {
    text += fmt::format("{}, {} ({}): {}\n    next: {}\n", g.id.value, words::title(c, g),
                        words::builder(c, g.builder), what, next);
    Json one = glue_up_json(c, g);
    one["says"] = what;
    one["next"] = next;
    list.push_back(std::move(one));
  };
  for (const auto& [id, g] : c.floor.glue_ups) {
    if (g.progress == Progress::displaced) {
      const auto quote = earliest_for(c.floor, id, c.now, c.now);
      const std::string own = number(id);
      const std::string next =
          quote ? words::clock(c, quote->slot.times.stage_begin) + " can be had: squeezeout move " +
                      own
                : "no time can be had (squeezeout why " + own + "); squeezeout cancel " + own;
      add(g, words::snag(c, g), next);
    } else if (over_time(g, c.now)) {
      add(g, words::phase(c, g),
          "squeezeout off " + number(id) + ", or late " + number(id) + " --by MIN");
    } else if (const auto by = clamps_on_by(g); g.progress == Progress::open && by && c.now > *by) {
      add(g, words::phase(c, g), "squeezeout on " + number(id) + ", or spoiled " + number(id));
    }
  }
  for (const auto& [id, o] : c.floor.outages) {
    if (!o.span.contains(c.now)) continue;  // mended
    const GearKind* kind = c.floor.kind(o.kind);
    const std::string key = kind ? kind->key : "";
    const std::string what = words::number(o.count, kind ? kind->name : "piece") + " out of use" +
                             (o.reason.empty() ? "" : " (" + o.reason + ")") + " since " +
                             words::clock(c, o.span.begin);
    const std::string next = fmt::format("squeezeout gear mended {} {}", key, o.count);
    text += fmt::format("{}\n    next: {}\n", what, next);
    list.push_back(
        {{"gear", key}, {"count", o.count}, {"reason", o.reason}, {"says", what}, {"next", next}});
  }
  tool.print(text.empty() ? "No snags.\n" : text, list);
}

// ---- wall ----

// What holds gear now: over-time first, then by when the gear comes free.
std::vector<const GlueUp*> holding_gear(const words::Context& c) {
  std::vector<const GlueUp*> out;
  for (const auto& [id, g] : c.floor.glue_ups)
    if (running(g) || phase_at(g, c.now) == Phase::stage) out.push_back(&g);
  std::stable_sort(out.begin(), out.end(), [&](const GlueUp* a, const GlueUp* b) {
    return std::tuple{!over_time(*a, c.now), a->times.release_end} <
           std::tuple{!over_time(*b, c.now), b->times.release_end};
  });
  return out;
}

std::string left_till(const words::Context& c, const GlueUp& g) {
  const Instant off = g.times.release_begin;
  return running(g) && off > c.now ? words::countdown(off - c.now) : "";
}

void say_wall(Tool& tool) {
  const words::Context c = tool.session().context();
  Rows rows;
  Json busy = Json::array(), free = Json::array();
  for (const GlueUp* g : holding_gear(c)) {
    rows.push_back({words::phase(c, *g), left_till(c, *g), words::builder(c, g->builder),
                    words::title(c, *g), words::gear(c, g->held)});
    busy.push_back(glue_up_json(c, *g));
  }
  std::string text = fmt::format("{}  {}\n\n", words::clock_only(c, c.now), words::day(c, c.now));
  text += rows.empty() ? "Nothing curing. Gear all free.\n"
                       : words::table({{"stands", Align::left, 34},
                                       {"in", Align::right},
                                       {"builder", Align::left, 14},
                                       {"glue-up", Align::left, 26},
                                       {"gear", Align::left, 40}},
                                      rows);
  std::vector<Held> idle;
  for (const GearNow& g : gear_now(c.floor, c.now)) {
    const GearKind* kind = c.floor.kind(g.kind);
    if (g.free == 0 || !kind) continue;
    idle.push_back({g.kind, g.free});
    free.push_back({{"gear", kind->key}, {"free", g.free}});
  }
  if (!rows.empty()) text += "\nfree now: " + words::gear(c, idle) + "\n";
  tool.print(text, {{"now", time_json(c, c.now)}, {"busy", busy}, {"free", free}});
}

// ---- day ----

struct DayArgs {
  std::string date = "today";
  std::string table = "glue-ups";
  bool csv = false;  // as CLI11 fills it in
};

Json cells_json(const words::Cells& cells) {
  Json out = Json::array();
  for (std::size_t row = 1; row < cells.size(); ++row) {
    Json one;
    for (std::size_t i = 0; i < cells[row].size(); ++i) one[cells[0][i]] = cells[row][i];
    out.push_back(std::move(one));
  }
  return out;
}

void say_day(Tool& tool, const DayArgs& args) {
  const Session& session = tool.session();
  (void)session.shop();
  const words::Context c = session.context();
  const Date date = read_date(c, args.date);
  if (c.floor.zone->day(date).begin < session.replica().since())
    wrong_use("That day is too long ago.",
              "A client holds the glue-ups of the last days only, from " +
                  words::day(c, session.replica().since()) + ".",
              "The server's own records go further back.");
  const DaySheet sheet = day_sheet(c.floor, date, c.now);
  if (!args.csv) {
    tool.print(words::day_text(c, sheet),
               {{"glue_ups", cells_json(words::day_cells(c, sheet))},
                {"gear", cells_json(words::day_gear_cells(c, sheet))},
                {"started", sheet.started},
                {"finished", sheet.finished},
                {"spoiled", sheet.spoiled},
                {"displaced", sheet.displaced},
                {"cancelled", sheet.cancelled},
                {"open_seconds", sheet.open_time.count()},
                {"waited_for_gear_seconds", sheet.waited_for_gear.count()}});
    return;
  }
  const words::Cells cells =
      args.table == "gear" ? words::day_gear_cells(c, sheet) : words::day_cells(c, sheet);
  std::string text;
  for (const auto& row : cells) text += csv_row(row);
  tool.print(text, cells_json(cells));
}

// ---- health ----

void say_health(Tool& tool) {
  const Session& session = tool.session();
  const words::Context c = session.context();
  const auto live_ones = std::count_if(c.floor.glue_ups.begin(), c.floor.glue_ups.end(),
                                       [](const auto& g) { return live(g.second); });
  const std::string shop = c.floor.shop ? c.floor.shop->name : "";
  tool.print(
      fmt::format("Live. {} at {}, server {}, shop's time {} {}, revision {}, {}.\n",
                  shop.empty() ? "No shop" : shop, tool.server, session.replica().server_version(),
                  words::day(c, c.now), words::clock_only(c, c.now), session.replica().revision(),
                  words::number(static_cast<int>(live_ones), "live glue-up")),
      {{"live", true},
       {"server", tool.server},
       {"server_version", session.replica().server_version()},
       {"shop", shop},
       {"now", time_json(c, c.now)},
       {"revision", session.replica().revision()},
       {"live_glue_ups", live_ones}});
}

}  // namespace

void add_look_verbs(CLI::App& app, Tool& tool) {
  const auto all = std::make_shared<bool>(false);
  add_verb(app, tool, "list", "All glue-ups that are reserved, running or waiting",
           "squeezeout list", [all](Tool& t) { say_list(t, *all); })
      .add_flag("--all", *all, "Those of the last days that are over, too");

  const auto id = std::make_shared<std::uint32_t>(0);
  add_verb(app, tool, "show", "One glue-up", "squeezeout show 14 --json",
           [id](Tool& t) {
             const words::Context c = t.session().context();
             const GlueUp& g = find_glue_up(c, *id);
             t.print(shown(c, g), glue_up_json(c, g));
           })
      .add_option("glue-up", *id, "Its number (squeezeout list)")
      ->required()
      ->type_name("N");

  add_verb(app, tool, "snags", "What needs somebody: lost places, clamps on too long, broken gear",
           "squeezeout snags", say_snags);
  add_verb(app, tool, "wall", "What holds gear now, by when it comes free", "squeezeout wall",
           say_wall);

  const auto day = std::make_shared<DayArgs>();
  CLI::App& verb =
      add_verb(app, tool, "day", "The day sheet",
               "squeezeout day --date yesterday\n  squeezeout day --csv --table gear > gear.csv",
               [day](Tool& t) { say_day(t, *day); });
  verb.add_option("--date", day->date, "2026-11-26, today, yesterday or tomorrow")
      ->type_name("DATE")
      ->capture_default_str();
  verb.add_flag("--csv", day->csv, "A table for a spreadsheet");
  verb.add_option("--table", day->table, "Which: glue-ups or gear")
      ->check(CLI::IsMember({"glue-ups", "gear"}))
      ->capture_default_str();

  add_verb(app, tool, "health", "Whether the server answers, and what it holds",
           "squeezeout health", say_health);
}

}  // namespace squeezeout::cli
