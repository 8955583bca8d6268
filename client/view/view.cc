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
  view.message.reset();
  return view;
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
  return std::visit(Overloaded{
                        [&](const Ask&) { return view; },
                        [&](const Go& i) {
                          View next = to(view, i.screen);
                          if (i.glue_up) next.glue_up = i.glue_up;
                          if (i.screen == Screen::day) next.day = 0;
                          if (i.screen == Screen::board && i.glue_up) {
                            next.picked = i.glue_up;
                            next.chain = Chain::shown;
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
                          next.page = 0;
                          return next;
                        },
                        [&](const Zoom& i) {
                          View next = view;
                          next.zoom = std::clamp(view.zoom - i.by, 0, kZoomCount - 1);
                          if (i.by == 0) next.pan = 0;
                          return next;
                        },
                        [&](const Pan& i) {
                          View next = view;
                          next.pan = std::clamp(view.pan + i.by, -60, 60);
                          return next;
                        },
                        [&](const Turn& i) {
                          View next = view;
                          next.page = std::max(0, view.page + i.pages);
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
                          return next;
                        },
                        [&](const AskHolderToMove&) { return view; },
                        [&](const ShowHelp& i) {
                          View next = view;
                          next.help = i.help;
                          return next;
                        },
                        [&](const SetPrefs& i) {
                          View next = view;
                          next.prefs = i.prefs;
                          return next;
                        },
                        [&](const Dismiss&) {
                          View next = view;
                          next.message.reset();
                          return next;
                        },
                    },
                    intent);
}

}  // namespace squeezeout
