#include "client/session.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <utility>

#include "client/setup/setup_session.h"
#include "client/view/free_starts.h"
#include "client/view/next.h"
#include "client/words/say.h"
#include "client/words/why.h"
#include "client/words/words.h"

namespace squeezeout {
namespace {

GlueUpId glue_up_of(const Body& body) {
  return std::visit(
      [](const auto& c) -> GlueUpId {
        if constexpr (requires { c.glue_up; })
          return c.glue_up;
        else
          return {};
      },
      body);
}

bool same_text(const std::string& a, const std::string& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](unsigned char x, unsigned char y) {
    return std::tolower(x) == std::tolower(y);
  });
}

template <class Thing>
const Thing* named(const std::vector<Thing>& things, const std::string& name) {
  for (const Thing& t : things)
    if (same_text(t.key, name) || same_text(t.name, name)) return &t;
  return nullptr;
}

template <class Thing>
std::string keys_of(const std::vector<Thing>& things) {
  std::string out;
  for (const Thing& t : things) out += (out.empty() ? "" : ", ") + t.key;
  return out;
}

std::optional<Fix> knowingly(const Body& asked) {
  if (const auto* c = std::get_if<Start>(&asked))
    return Fix{words::tr("Start anyway"), Ask{Start{c->glue_up, Override::knowingly}}};
  if (const auto* c = std::get_if<ClampsOff>(&asked))
    return Fix{words::tr("Off anyway"), Ask{ClampsOff{c->glue_up, c->at, Override::knowingly}}};
  if (const auto* c = std::get_if<Scraped>(&asked))
    return Fix{words::tr("Done anyway"), Ask{Scraped{c->glue_up, c->at, Override::knowingly}}};
  return std::nullopt;
}

// Whom to ask, and the move that is one press when he agrees.
Message ask_holder(const words::Context& c, const AskHolderToMove& ask) {
  const GlueUp* g = c.floor.glue_up(ask.glue_up);
  if (g == nullptr) return {};
  return {.tone = Message::Tone::done,
          .what = words::say("Ask {}: {} {} → {}.", words::builder(c, g->builder),
                             words::recipe(c, g->recipe), words::clock(c, g->times.stage_begin),
                             words::clock(c, ask.to)),
          .why = words::say("Then yours can start {}.", words::clock(c, ask.then)),
          .fix = Ask{Move{g->id, ask.to, g->outside_hours ? Override::knowingly : Override::no}},
          .fix_label = words::tr("Agreed: move it")};
}

// "Clamps off" is often pressed a while after it was done.
void offer_correction(Message& message, const words::Context& c, GlueUpId id) {
  const GlueUp* g = c.floor.glue_up(id);
  if (g == nullptr) return;
  const auto earlier = really_off(c.floor, *g, c.now);
  if (earlier.empty()) return;
  message.fix = ReallyOff{id, earlier.front()};
  message.fix_label = words::say("Really off {}", words::clock(c, earlier.front()));
}

constexpr Seconds kWhatIfHolds = std::chrono::hours{1};

}  // namespace

std::optional<Fix> fix_of(const words::Context& c, plan_ahead::Task plan, const Body& asked,
                          const Refusal& refusal) {
  if (std::holds_alternative<TooEarly>(refusal)) return knowingly(asked);
  if (std::holds_alternative<AdoptPlan>(asked))
    return Fix{words::tr("Plan again"), PlanAhead{plan}};
  const auto* no = std::get_if<DoesNotFit>(&refusal);
  if (no == nullptr) return std::nullopt;
  if (std::holds_alternative<Start>(asked)) return knowingly(asked);
  if (!no->next) return std::nullopt;
  const Instant next = no->next->times.stage_begin;
  const std::string label = words::say("Take {}", words::clock(c, next));
  if (const auto* reserve = std::get_if<Reserve>(&asked)) {
    Reserve again = *reserve;
    again.start = next;
    return Fix{label, Ask{again}};
  }
  if (const auto* move = std::get_if<Move>(&asked))
    return Fix{label, Ask{Move{move->glue_up, next, move->hours}}};
  return std::nullopt;
}

void Session::press(Intent intent, Steady now) {
  // An alarm stands over what became of the press before it: that is read once it is quiet.
  if (!std::holds_alternative<Quiet>(intent)) view_.message.reset();
  if (const auto* ask = std::get_if<Ask>(&intent)) replica_.ask(ids_(), ask->body, now);
  if (const auto* off = std::get_if<ReallyOff>(&intent)) {
    correction_ = *off;
    replica_.ask(ids_(), Undo{off->glue_up}, now);
  }
  plan_ahead(intent, replica_.now(now));
  setup::begin_draft(view_, intent, replica_.floor());
  view_ = after(std::move(view_), intent);
  if (auto body = setup::follow(view_, intent, replica_.floor(), replica_.now(now)))
    replica_.ask(ids_(), std::move(*body), now);
  if (const auto* ask = std::get_if<AskHolderToMove>(&intent))
    view_.message = ask_holder({replica_.floor(), replica_.now(now)}, *ask);
}

void Session::begin(plan_ahead::Task task, Instant now) {
  desk_.of(task).begin(task, {replica_.floor(), replica_.revision(), now, replica_.since()});
}

void Session::plan_ahead(const Intent& intent, Instant now) {
  using State = plan_ahead::Report::State;
  if (const auto* ask = std::get_if<PlanAhead>(&intent)) begin(ask->task, now);
  if (std::holds_alternative<StopPlanning>(intent)) desk_.plans.stop();
  if (std::holds_alternative<RefusePlan>(intent)) desk_.plans.put_away();
  const auto* go = std::get_if<Go>(&intent);
  if (go == nullptr || go->screen != Screen::what_if) return;
  const plan_ahead::Report& known = desk_.what_ifs.news();
  if (known.state == State::idle || now - known.asked_at > kWhatIfHolds)
    begin(plan_ahead::Task::what_if, now);
}

void Session::take_answers(Steady now) {
  const std::vector<Reply> replies = replica_.take_replies();
  for (const Reply& reply : replies) {
    answered(reply, replica_.now(now));
    correct_off(reply, now);
  }
  if (replica_.caught_up()) setup::meet(view_, replica_.floor());
  leave_other_time();
  tell_return(replies, now);
  tell_weather(replica_.now(now));
}

// Nobody moves what somebody else has started or cancelled meanwhile.
void Session::leave_other_time() {
  if (!view_.other_time || !replica_.has_floor()) return;
  const GlueUp* g = replica_.floor().glue_up(view_.other_time->glue_up);
  if (g == nullptr || !movable(*g)) view_.other_time.reset();
}

// The press is taken back: now say it again with its true time. Not taken back: the foot says why, and nothing has changed.
void Session::correct_off(const Reply& reply, Steady now) {
  const auto* undo = std::get_if<Undo>(&reply.asked);
  if (!correction_ || undo == nullptr || undo->glue_up != correction_->glue_up) return;
  const ReallyOff really = *std::exchange(correction_, std::nullopt);
  if (reply.how == Reply::How::done)
    replica_.ask(ids_(), ClampsOff{really.glue_up, really.at}, now);
}

// Once the server is back and has answered all that waited: how it went, in one line. What was refused stays to be read below it.
void Session::tell_return(const std::vector<Reply>& replies, Steady now) {
  const Link link = replica_.link(now);
  if (!away_ && replica_.has_floor() && link == Link::not_live) away_.emplace();
  if (!away_) return;
  for (const Reply& reply : replies) {
    if (reply.how == Reply::How::lost) continue;  // asked meanwhile, and told at once
    ++away_->sent;
    if (reply.how != Reply::How::done) ++away_->needs_you;
  }
  if (link != Link::live || !replica_.caught_up() || replica_.unanswered() > 0) return;
  Message back{.what = words::back_live(away_->sent, away_->needs_you)};
  if (away_->needs_you > 0 && view_.message && view_.message->tone == Message::Tone::refused) {
    back = std::move(*view_.message);
    back.why = back.what + " " + back.why;
    back.what = words::back_live(away_->sent, away_->needs_you);
  }
  view_.message = std::move(back);
  away_.reset();
}

// News of the weather comes unasked; it waits while a refusal is on the line, for that wants a press. What was on record
// before this bench looked at the floor is no news: its rows say it.
void Session::tell_weather(Instant now) {
  if (!replica_.caught_up() || !(view_.bench || view_.builder)) return;
  if (view_.message && view_.message->tone == Message::Tone::refused) return;
  if (told_ && replica_.revision() == looked_at_) return;
  looked_at_ = replica_.revision();
  const words::Context c{replica_.floor(), now};
  std::map<GlueUpId, WeatherNote> notes;
  std::vector<std::string> news;
  for (const auto& [id, g] : c.floor.glue_ups) {
    const bool own = g.bench == view_.bench || g.builder == view_.builder;
    if (!own || !live(g) || !g.weather) continue;
    notes.emplace(id, *g.weather);
    const bool known = !told_ || (told_->contains(id) && told_->at(id) == *g.weather);
    const std::string note = words::weather(c, g);
    if (!known && !note.empty()) news.push_back(words::title(c, g) + ", " + note);
  }
  told_ = std::move(notes);
  if (news.empty()) return;
  constexpr std::size_t kTold = 2;
  std::string why;
  for (std::size_t i = 0; i < std::min(news.size(), kTold); ++i)
    why += (i == 0 ? "" : "; ") + news[i];
  if (news.size() > kTold) why += words::say("; and {} more", news.size() - kTold);
  const std::string heading = news.size() == 1
                                  ? words::tr("The weather changed a glue-up of yours.")
                                  : words::tr("The weather changed glue-ups of yours.");
  view_.message = Message{.what = heading, .why = why};
}

void Session::answered(const Reply& reply, Instant now) {
  const words::Context c{replica_.floor(), now};
  const GlueUpId id = reply.glue_up ? reply.glue_up : glue_up_of(reply.asked);
  Message message;
  switch (reply.how) {
    case Reply::How::done: {
      if (id) view_.touched = id;
      view_.adopted = {};
      if (std::holds_alternative<AdoptPlan>(reply.asked)) {
        view_.adopted = PlanId{replica_.floor().last_plan};
        desk_.plans.put_away();
        if (view_.screen == Screen::plan) view_ = after(std::move(view_), Back{});
      }
      message.what = words::done(c, reply.asked, id);
      if (std::holds_alternative<Move>(reply.asked)) {
        if (view_.other_time) view_.outlook.find = Outlook::Find::bar;
        view_.other_time.reset();
      }
      if (std::holds_alternative<ClampsOff>(reply.asked)) offer_correction(message, c, id);
      if (std::holds_alternative<Reserve>(reply.asked)) {
        view_.screen = Screen::card;
        view_.glue_up = id;
      }
      const GlueUp* shown = replica_.floor().glue_up(view_.glue_up);
      if (view_.screen == Screen::card && shown != nullptr &&
          shown->progress == Progress::cancelled)
        view_.screen = Screen::bench;
      break;
    }
    case Reply::How::refused: {
      message.tone = Message::Tone::refused;
      const words::Told told = words::refusal(c, reply.asked, *reply.refusal);
      message.what = told.what;
      message.why = told.why + (told.next.empty() ? "" : " " + told.next);
      if (auto fix = fix_of(c, view_.plan, reply.asked, *reply.refusal)) {
        message.fix = fix->intent;
        message.fix_label = fix->label;
      }
      break;
    }
    case Reply::How::lost:
      message.tone = Message::Tone::refused;
      message.what = words::tr("Not done: the server was not there to say yes.");
      message.why = words::tr("Nothing has changed. Press again when it says LIVE.");
      break;
    case Reply::How::error:
      message.tone = Message::Tone::refused;
      message.what = words::tr("Not done: the server could not take it.");
      message.why = reply.error;
      break;
  }
  view_.message = std::move(message);
  setup::answered(view_, reply);
}

Result<View, std::string> identify(View view, const Identity& who, const Floor& floor) {
  const Shop& shop = *floor.shop;
  if (!who.bench.empty()) {
    const Bench* bench = named(shop.benches, who.bench);
    if (bench == nullptr && who.bench.find_first_not_of("0123456789") == std::string::npos &&
        who.bench.size() < 5) {
      const std::size_t n = std::stoul(who.bench);
      if (n >= 1 && n <= shop.benches.size()) bench = &shop.benches[n - 1];
    }
    if (bench == nullptr)
      return Unexpected("There is no bench \"" + who.bench + "\". Next: name one of " +
                        keys_of(shop.benches) + ", or its number.");
    view.bench = bench->id;
  }
  if (!who.builder.empty()) {
    const Builder* builder = named(shop.builders, who.builder);
    if (builder == nullptr)
      return Unexpected("There is no builder \"" + who.builder + "\". Next: name one of " +
                        keys_of(shop.builders) + ".");
    view.builder = builder->id;
    if (!view.bench) view.bench = builder->bench;
  }
  if (!view.bench && !shop.benches.empty()) view.bench = shop.benches.front().id;
  if (!view.builder)
    for (const Builder& b : shop.builders)
      if (b.bench == view.bench) {
        view.builder = b.id;
        break;
      }
  if (!view.builder && !shop.builders.empty()) view.builder = shop.builders.front().id;
  return view;
}

}  // namespace squeezeout
