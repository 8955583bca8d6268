// Why not earlier, in few facts; other ways to an earlier moment; the critical chain. Changes nothing.

#include <fmt/format.h>

#include "client/sync/overload.h"
#include "client/words/why.h"
#include "tools/cli/fact_json.h"
#include "tools/cli/times.h"
#include "tools/cli/verbs.h"
#include "tools/cli/wanted.h"

namespace squeezeout::cli {
namespace {

struct WhyArgs {
  Wanted wanted;
  bool chain = false;  // as CLI11 fills it in
};

Json blockers_json(const words::Context& c, const std::vector<Blocker>& blockers) {
  Json out = Json::array();
  for (const Blocker& b : blockers) {
    Json one = fact_json(c, b);
    one["words"] = words::blocker(c, b);
    out.push_back(std::move(one));
  }
  return out;
}

Json alternative_json(const words::Context& c, const Alternative& a) {
  Json out = std::visit(
      Overload{[&](const OtherGlue& by) {
                 return Json{{"by", "other_glue"}, {"glue", key_json(c.floor.sheet(by.sheet))}};
               },
               [&](const FewerPieces& by) {
                 return Json{{"by", "fewer_pieces"}, {"count", by.need.count}, {"usual", by.usual}};
               },
               [&](const AskHolder& by) {
                 return Json{{"by", "ask_holder"},
                             {"glue_up", by.glue_up.value},
                             {"from", time_json(c, by.from)},
                             {"to", time_json(c, by.to)}};
               }},
      a.by);
  out["start"] = time_json(c, a.start);
  out["ready_at"] = time_json(c, a.ready);
  out["words"] = words::alternative(c, a);
  return out;
}

// What is printed, as it grows.
struct Answer {
  std::string text;
  Json json = Json::object();
};

void add_line(Answer& to, const std::string& line) { to.text += line + "\n"; }

void add_why(Answer& to, const words::Context& c, const Why& why) {
  to.json["says"] = words::not_before(c, why);
  to.json["wanted"] = time_json(c, why.wanted);
  to.json["start"] = time_json(c, why.start);
  to.json["blockers"] = blockers_json(c, why.blockers);
  add_line(to, words::not_before(c, why));
}

void add_chain(Answer& to, const words::Context& c, const std::vector<ChainLink>& links) {
  Json out = Json::array();
  for (const ChainLink& link : links)
    out.push_back({{"glue_up", link.glue_up.value}, {"because", blockers_json(c, link.because)}});
  to.json["chain"] = std::move(out);
  if (links.empty()) return add_line(to, "Nothing is planned, and nothing runs.");
  for (const std::string& line : words::chain(c, links)) add_line(to, line);
}

// A glue-up that is reserved, or lost its place.
Answer about(const words::Context& c, GlueUpId id, bool with_chain) {
  const auto why = why_not_earlier(c.floor, id, c.now);
  const GlueUp* g = c.floor.glue_up(id);
  Answer out;
  if (!why && !(g && with_chain)) {
    const Body asked = Move{id, c.now, Override::no};
    words::Told told = words::refusal(c, asked, why.error());
    told.what = "Not to be told.";
    throw Stop{Exit::refused, told, refusal_json(c, why.error())};
  }
  if (why) {
    const bool placed = g->progress == Progress::reserved;
    const bool can_be_sooner = why->start && (!placed || *why->start < g->times.stage_begin);
    add_line(out, fmt::format("{}, {}: {}.", words::title(c, *g), words::builder(c, g->builder),
                              words::phase(c, *g)));
    add_why(out, c, *why);
    if (can_be_sooner)
      add_line(out, fmt::format("{} can be had: squeezeout move {}.", words::clock(c, *why->start),
                                id.value));
  }
  if (with_chain) add_chain(out, c, critical_chain(c.floor, id, c.now));
  return out;
}

Answer about(const words::Context& c, const Reserve& wanted, bool with_chain) {
  const auto why = why_not_earlier(c.floor, wanted, c.now);
  if (!why) {
    words::Told told = words::refusal(c, wanted, why.error());
    told.what = "Not to be had.";
    throw Stop{Exit::refused, told, refusal_json(c, why.error())};
  }
  Answer out;
  add_why(out, c, *why);
  Json others = Json::array();
  for (const Alternative& a : alternatives(c.floor, wanted, c.now)) {
    add_line(out, words::alternative(c, a));
    others.push_back(alternative_json(c, a));
  }
  out.json["alternatives"] = std::move(others);
  if (!with_chain) return out;
  for (const Blocker& b : why->blockers) {
    if (!glue_up_of(b)) continue;
    add_chain(out, c, critical_chain(c.floor, glue_up_of(b), c.now));
    break;
  }
  return out;
}

void say_why(Tool& tool, const WhyArgs& args) {
  const Session& session = tool.session();
  const words::Context c = session.context();
  const std::string& what = args.wanted.recipe;
  const bool number = !what.empty() && what.size() < 10 &&
                      what.find_first_not_of("0123456789") == std::string::npos;
  Answer out;
  if (args.chain && what.empty() && args.wanted.build.empty())
    add_chain(out, c, critical_chain(c.floor, c.now));
  else if (number && args.wanted.build.empty())
    out = about(c, GlueUpId{static_cast<std::uint32_t>(std::stoul(what))}, args.chain);
  else
    out = about(c, read_wanted(session, args.wanted), args.chain);
  tool.print(out.text, out.json);
}

}  // namespace

void add_why_verb(CLI::App& app, Tool& tool) {
  const auto args = std::make_shared<WhyArgs>();
  CLI::App& verb =
      add_verb(app, tool, "why",
               "Why not earlier: who holds what until when, and what else could be "
               "done. Of a recipe, or of a glue-up on record by its number",
               "squeezeout why bridge --builder ida --at 15:00\n  squeezeout why 14\n  "
               "squeezeout why --chain",
               [args](Tool& t) { say_why(t, *args); });
  add_wanted(verb, args->wanted);
  verb.add_flag(
      "--chain", args->chain,
      "Who waits for whom, back to what could not start sooner. Alone: of the whole plan");
}

}  // namespace squeezeout::cli
