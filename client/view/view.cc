#include "client/view/view.h"

#include <algorithm>

namespace squeezeout {
namespace {

template <class... F>
struct Overloaded : F... {
  using F::operator()...;
};

View to(View view, Screen screen) {
  view.screen = screen;
  view.page = 0;
  view.help = Help::closed;
  view.other_time.reset();
  view.message.reset();
  return view;
}

// The board looks there.
void look_there(View& view, const Outlook& there) {
  view.outlook = there;
  if (there.page) view.page = *there.page;
}

// Where Esc goes.
Screen behind(const View& view) {
  if (view.screen == Screen::plan)
    return view.plan == plan_ahead::Task::repair ? Screen::snags : Screen::board;
  if (view.screen != Screen::figures) return Screen::bench;
  return view.figures_of ? Screen::card : Screen::reserve;
}

}  // namespace

View after(View view, const Intent& intent) {
  // A press elsewhere leaves the field.
  if (!std::holds_alternative<Typed>(intent) && !std::holds_alternative<ShowHelp>(intent))
    view.typing.clear();
  return std::visit(Overloaded{
                        [&](const Ask&) { return view; },
                        [&](const Go& i) {
                          View next = to(view, i.screen);
                          if (i.glue_up) next.glue_up = i.glue_up;
                          if (i.screen == Screen::day) next.day = 0;
                          if (i.screen == Screen::board && i.glue_up) {
                            next.picked = i.glue_up;
                            next.chain = Chain::shown;
                            next.outlook = {.find = Outlook::Find::bar};
                            next.only = {};
                            next.lane.clear();
                          }
                          return next;
                        },
                        [&](const Back&) { return to(view, behind(view)); },
                        [&](const Pick& i) {
                          View next = to(view, Screen::reserve);
                          if (view.screen == Screen::reserve) next.page = view.page;
                          next.wanted = i.wanted;
                          return next;
                        },
                        [&](const ShowTiles& i) {
                          View next = view;
                          next.tiles = i.tiles;
                          next.page = 0;
                          return next;
                        },
                        [&](const ByLanes& i) {
                          View next = view;
                          next.lanes = i.lanes;
                          next.lane.clear();
                          next.page = 0;
                          if (view.picked) next.outlook.find = Outlook::Find::lane;
                          return next;
                        },
                        [&](const Zoom& i) {
                          View next = view;
                          next.zoom = std::clamp(view.zoom - i.by, 0, kZoomCount - 1);
                          if (i.by != 0 && next.zoom == view.zoom) return view;
                          look_there(next, i.by == 0 ? Outlook{} : i.outlook);
                          return next;
                        },
                        [&](const Pan& i) {
                          View next = view;
                          look_there(next, i.outlook);
                          return next;
                        },
                        [&](const Turn& i) {
                          View next = view;
                          if (i.outlook) look_there(next, *i.outlook);
                          int& page = view.help == Help::open ? next.help_page : next.page;
                          page = std::max(0, page + i.pages);
                          return next;
                        },
                        [&](const ShowDay& i) {
                          View next = view;
                          next.day = i.days == 0 ? 0 : std::clamp(view.day + i.days, -366, 366);
                          next.page = 0;
                          return next;
                        },
                        [&](const ChooseGear& i) {
                          View next = view;
                          next.kind = i.kind;
                          return next;
                        },
                        [&](const ShowFigures& i) {
                          View next = to(view, Screen::figures);
                          next.figures_of = i.glue_up;
                          return next;
                        },
                        [&](const SetAir& i) {
                          View next = view;
                          next.air = i.air;
                          return next;
                        },
                        [&](const PlanAhead& i) {
                          const bool what_if = i.task == plan_ahead::Task::what_if;
                          View next = to(view, what_if ? Screen::what_if : Screen::plan);
                          if (!what_if) next.plan = i.task;
                          return next;
                        },
                        [&](const StopPlanning&) { return view; },
                        [&](const RefusePlan&) { return to(view, behind(view)); },
                        [&](const ShowChain& i) {
                          View next = view;
                          next.chain = i.chain;
                          return next;
                        },
                        [&](const PickBar& i) {
                          View next = view;
                          next.picked = i.glue_up;
                          look_there(next, i.outlook);
                          return next;
                        },
                        [&](const OnlyBuild& i) {
                          View next = view;
                          next.only = i.build;
                          next.page = 0;
                          return next;
                        },
                        [&](const OnlyLane& i) {
                          View next = view;
                          next.lane = i.lane;
                          next.page = 0;
                          next.outlook.find = Outlook::Find::nothing;
                          return next;
                        },
                        [&](const OtherTime& i) {
                          View next = view;
                          look_there(next, i.outlook);
                          next.other_time.reset();
                          if (i.glue_up) next.picked = i.glue_up, next.other_time = i;
                          return next;
                        },
                        [&](const AskHolderToMove&) { return view; },
                        [&](const ReallyOff&) { return view; },
                        [&](const ShowHelp& i) {
                          View next = view;
                          next.help = i.help;
                          next.help_page = 0;
                          return next;
                        },
                        [&](const SetPrefs& i) {
                          View next = view;
                          next.prefs = i.prefs;
                          return next;
                        },
                        [&](const Quiet&) { return view; },
                        [&](const PrintLabel&) { return view; },
                        [&](const TrySound&) { return view; },
                        [&](const StandAt& i) {
                          View next = view;
                          next.bench = i.bench;
                          next.builder = i.builder;
                          return next;
                        },
                        [&](const Focus& i) {
                          View next = view;
                          next.typing = i.field;
                          next.afresh = true;
                          return next;
                        },
                        [&](const Typed& i) { return with_text(view, i); },
                        [&](const ShowSetup& i) {
                          View next = to(view, Screen::setup);
                          next.draft.page = i.page;
                          next.draft.day = i.day;
                          return next;
                        },
                        [&](const EditShop& i) {
                          View next = view;
                          next.draft = draft::edited(std::move(next.draft), i.edit);
                          return next;
                        },
                        [&](const DoDraft&) { return view; },
                        [&](const ReadFile&) { return view; },
                        [&](const FileRead&) { return view; },
                        [&](const WriteShop&) { return view; },
                        [&](const FileWritten&) { return view; },
                    },
                    intent);
}

}  // namespace squeezeout
