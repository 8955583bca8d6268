#include "client/setup/setup_session.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <utility>

#include "client/draft/edit_parts.h"
#include "client/draft/lacks.h"
#include "client/draft/starter.h"
#include "client/draft/trial.h"
#include "client/words/say.h"
#include "client/words/words.h"
#include "proto/shop_file.h"

namespace squeezeout::setup {
namespace {

using draft::Draft;
using What = draft::Edit::What;
using Tone = Message::Tone;

Message refused(std::string what, std::string why) {
  return {.tone = Tone::refused, .what = std::move(what), .why = std::move(why)};
}

bool changes_the_shop(const Intent& intent) {
  if (const auto* typed = std::get_if<Typed>(&intent))
    return typed->field.starts_with("shop.") || typed->field.starts_with("bench.") ||
           typed->field.starts_with("builder.") || typed->field.starts_with("gear.");
  return std::holds_alternative<EditShop>(intent) || std::holds_alternative<FileRead>(intent);
}

// "recipe[3].need[0]" -> "Bridge": the name that a person gave it.
std::string thing_of(const Shop& shop, const std::string& mistake) {
  const auto named = [&](std::string_view list, const auto& things) -> std::string {
    if (!mistake.starts_with(list)) return {};
    std::size_t at = 0;
    const char* begin = mistake.data() + list.size();
    const auto read = std::from_chars(begin, mistake.data() + mistake.size(), at);
    return read.ec == std::errc{} && at < things.size() ? things[at].name : std::string();
  };
  for (const std::string& name : {named("recipe[", shop.recipes), named("adhesive[", shop.sheets),
                                  named("build[", shop.builds), named("builder[", shop.builders)})
    if (!name.empty()) return name + ": ";
  return {};
}

// Holds the draft against the shop file's checks and the floor, and remembers what they say.
draft::Trial try_out(Draft& d, const Shop& shop, const Floor& floor, Instant now) {
  draft::Trial trial = draft::tried(floor, shop, now);
  d.tried = {.of = d.shop};
  for (const std::string& m : trial.mistakes) d.tried.mistakes.push_back(thing_of(shop, m) + m);
  const words::Context here{floor, now};
  if (trial.refusal) {
    const words::Told told = words::refusal(here, LoadShop{}, *trial.refusal);
    d.tried.mistakes.push_back(told.why + " " + told.next);
  }
  if (trial.floor) {
    const words::Context then{*trial.floor, now};
    for (const draft::Trial::First& f : trial.firsts)
      d.tried.firsts.push_back(words::say("{} could start {}.", trial.floor->recipe(f.recipe)->name,
                                          words::clock(then, f.at)));
  }
  return trial;
}

std::optional<Body> ask_to_open(View& view, const Shop& shop, const Floor& floor, Instant now) {
  Draft& d = view.draft;
  draft::Trial trial = try_out(d, shop, floor, now);
  if (!d.tried.mistakes.empty()) {
    view.message = refused(words::tr("Not opened."), d.tried.mistakes.front());
    return std::nullopt;
  }
  d.opening = Draft::Opening::asked;
  const auto over = draft::as_counted(floor);
  d.asked = {d.shop, over ? std::make_shared<const Shop>(*over) : nullptr};
  return LoadShop{std::move(*trial.shop)};
}

void tell_trial(View& view, const draft::Trial& trial) {
  const auto& tried = view.draft.tried;
  if (!tried.mistakes.empty())
    view.message = refused(words::tr("It would not open."), tried.mistakes.front());
  else if (tried.firsts.empty())
    view.message = Message{.what = words::tr("It would open."),
                           .why = words::tr("No recipe finds a time yet: look at gear and hours.")};
  else
    view.message = Message{.what = words::tr("It would open."), .why = tried.firsts.front()};
  (void)trial;
}

std::optional<Body> do_draft(View& view, DoDraft::What what, const Floor& floor, Instant now) {
  Draft& d = view.draft;
  switch (what) {
    case DoDraft::What::try_it:
      d = draft::begun(std::move(d), draft::as_counted(floor));
      tell_trial(view, try_out(d, *d.shop, floor, now));
      return std::nullopt;
    case DoDraft::What::open: {
      d = draft::begun(std::move(d), draft::as_counted(floor));
      const draft::ShopState shop = d.shop;
      return ask_to_open(view, *shop, floor, now);
    }
    case DoDraft::What::put_away:
      d = draft::put_away(std::move(d));
      view.message = Message{.what = words::tr("The draft is put away."),
                             .why = words::tr("Undo brings it back.")};
      return std::nullopt;
    case DoDraft::What::back: {
      if (!d.opened_over || d.shop) return std::nullopt;
      const draft::ShopState before = d.opened_over;
      return ask_to_open(view, *before, floor, now);
    }
  }
  return std::nullopt;
}

// A recipe that was copied says what came with it, and what it lacks, with the press that mends it.
void tell_recipe(View& view, const words::Context& c, const std::string& key) {
  const Shop& shop = *view.draft.shop;
  const Recipe* recipe = draft::keyed(shop.recipes, key);
  if (recipe == nullptr) return;
  for (const Build& b : shop.builds)
    if (std::find(b.steps.begin(), b.steps.end(), recipe->id) != b.steps.end()) {
      view.message = refused(words::say("{} stays.", recipe->name),
                             words::say("It is a step of {}. Next: finish that, or take the step "
                                        "out of the shop file.",
                                        b.name));
      return;
    }
  const auto lacks = draft::need_lacks(shop, *recipe);
  if (lacks.empty()) return;
  view.message = refused(words::say("{} lacks gear.", recipe->name),
                         words::say("It wants {}; the shop has {}.",
                                    words::need(c, lacks.front().need), lacks.front().owned));
  const bool some = std::any_of(lacks.begin(), lacks.end(), [&](const draft::NeedLack& l) {
    return draft::that_meets(shop, l.need).thing != nullptr;
  });
  if (!some) return;
  view.message->fix = EditShop{{.what = What::gear_for_recipe, .text = key}};
  view.message->fix_label = words::tr("Add what it lacks");
}

// A glue with a caution is taken with its caution read.
void tell_glue(View& view, const std::string& key) {
  const AdhesiveSheet* sheet = draft::keyed(view.draft.shop->sheets, key);
  if (sheet == nullptr || sheet->caution.empty()) return;
  view.message = Message{.what = sheet->name + ".", .why = sheet->caution};
}

void take_gear(Draft& d, std::vector<GearKind> rows) {
  Shop shop = *d.shop;
  for (GearKind& row : rows) {
    const auto known = std::find_if(shop.gear.begin(), shop.gear.end(),
                                    [&](const GearKind& k) { return k.key == row.key; });
    row.id = known != shop.gear.end() ? known->id : draft::free_id<GearKindId>(shop.gear);
    if (known != shop.gear.end())
      *known = std::move(row);
    else
      shop.gear.push_back(std::move(row));
  }
  d = draft::replaced(std::move(d), std::move(shop));
}

void tell_mistakes(View& view, const std::string& name, const std::vector<FileMistake>& mistakes) {
  view.draft.told.clear();
  for (const FileMistake& m : mistakes) view.draft.told.push_back(to_text(m));
  view.page = 0;
  view.message = refused(words::say("{} was not read.", name),
                         view.draft.told.empty() ? "" : view.draft.told.front());
}

void take_file(View& view, const FileRead& file) {
  if (!file.trouble.empty()) {
    view.message = refused(words::say("{} was not read.", file.name), file.trouble + ".");
    return;
  }
  const std::size_t dot = file.name.rfind('.');
  const bool table = dot != std::string::npos &&
                     (file.name.substr(dot) == ".csv" || file.name.substr(dot) == ".CSV");
  if (table) {
    auto rows = read_gear_csv(file.name, file.text);
    if (!rows) return tell_mistakes(view, file.name, rows.error());
    view.message = Message{.what = words::say_n(rows->size(), "{} kind of gear was read.",
                                                "{} kinds of gear were read."),
                           .why = words::tr("Undo takes it back.")};
    take_gear(view.draft, std::move(*rows));
  } else {
    auto shop = read_shop_file(file.name, file.text);
    if (!shop) return tell_mistakes(view, file.name, shop.error());
    view.message = Message{.what = words::say("{} is the draft now.", shop->name),
                           .why = words::tr("Undo takes it back.")};
    view.draft = draft::replaced(std::move(view.draft), std::move(*shop));
  }
  view.draft.told.clear();
}

}  // namespace

void begin_draft(View& view, const Intent& intent, const Floor& floor) {
  if (!std::holds_alternative<Typed>(intent) && !std::holds_alternative<ShowHelp>(intent))
    view.draft = draft::field_left(std::move(view.draft));
  if (changes_the_shop(intent) && !view.draft.shop)
    view.draft = draft::begun(std::move(view.draft), draft::as_counted(floor));
}

std::optional<Body> follow(View& view, const Intent& intent, const Floor& floor, Instant now) {
  if (const auto* i = std::get_if<DoDraft>(&intent)) return do_draft(view, i->what, floor, now);
  if (const auto* i = std::get_if<FileRead>(&intent)) take_file(view, *i);
  if (const auto* i = std::get_if<FileWritten>(&intent))
    view.message = i->trouble.empty()
                       ? Message{.what = words::tr("It is written."),
                                 .why = words::say("It lies at {}. A file that stood there is kept "
                                                   "beside it, as .before.",
                                                   i->name)}
                       : refused(words::say("{} was not written.", i->name), i->trouble);
  const auto* i = std::get_if<EditShop>(&intent);
  if (i != nullptr && i->edit.what == What::recipe && view.draft.shop)
    tell_recipe(view, {floor, now}, i->edit.text);
  if (i != nullptr && i->edit.what == What::glue && view.draft.shop) tell_glue(view, i->edit.text);
  return std::nullopt;
}

void answered(View& view, const Reply& reply) {
  if (!std::holds_alternative<LoadShop>(reply.asked)) return;
  Draft& d = view.draft;
  d.opening = Draft::Opening::no;
  const Draft::Asked asked = std::exchange(d.asked, {});
  if (reply.how != Reply::How::done) return;
  d.opened_over = asked.over;
  d.running = nullptr;
  view.message = Message{.what = words::tr("The shop is open.")};
  if (d.shop != asked.draft) {
    view.message->why = words::tr("What was changed meanwhile is still a draft.");
    return;
  }
  if (d.shop) d.before.clear();
  d.shop = nullptr;
  d.told.clear();
  d.tried = {};
  if (d.opened_over)
    view.message->why = words::tr("As before brings the shop back as it was.");
  else
    view.screen = Screen::bench;
}

void meet(View& view, const Floor& floor) {
  Draft& d = view.draft;
  if (floor.shop && d.shop && !d.running) {
    if (draft::untouched(d) && d.opening == Draft::Opening::no)
      d.shop = nullptr;
    else
      d = draft::begun(std::move(d), draft::as_counted(floor));
  }
  if (floor.shop || view.screen == Screen::setup || view.screen == Screen::wall) return;
  view.screen = Screen::setup;
  view.draft = draft::begun(std::move(view.draft), floor.shop);
  view.draft.page = draft::Page::shop;
}

}  // namespace squeezeout::setup
