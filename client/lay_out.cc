#include "client/lay_out.h"

#include "client/bench/card_model.h"
#include "client/bench/figures_model.h"
#include "client/bench/home_model.h"
#include "client/bench/reserve_model.h"
#include "client/board/board_model.h"
#include "client/help/help_model.h"
#include "client/panels/air_model.h"
#include "client/panels/chrome_model.h"
#include "client/panels/day_model.h"
#include "client/panels/gear_model.h"
#include "client/panels/plan_model.h"
#include "client/panels/snags_model.h"
#include "client/panels/what_if_model.h"
#include "client/setup/setup_model.h"
#include "client/wall/wall_model.h"

namespace squeezeout {

namespace {

look::Frame screen_of(const Scene& scene) {
  switch (scene.view.screen) {
    case Screen::bench:
      return bench::lay_out_home(scene);
    case Screen::reserve:
      return bench::lay_out_reserve(scene);
    case Screen::card:
      return bench::lay_out_card(scene);
    case Screen::board:
      return board::lay_out_board(scene);
    case Screen::wall:
      return wall::lay_out_wall(scene);
    case Screen::day:
      return panels::lay_out_day(scene);
    case Screen::snags:
      return panels::lay_out_snags(scene);
    case Screen::gear:
      return panels::lay_out_gear(scene);
    case Screen::figures:
      return bench::lay_out_figures(scene);
    case Screen::air:
      return panels::lay_out_air(scene);
    case Screen::plan:
      return panels::lay_out_plan(scene);
    case Screen::what_if:
      return panels::lay_out_what_if(scene);
    case Screen::setup:
      return setup::lay_out_setup(scene);
  }
  CHECK(!"a screen outside the enumeration");
}

}  // namespace

look::Frame lay_out(const Scene& scene) {
  const bool met = scene.view.screen == Screen::setup && scene.link != Link::connecting;
  if (!scene.floor.shop && !met) return panels::lay_out_waiting(scene);
  look::Frame frame = screen_of(scene);
  return scene.view.help == Help::open ? help::lay_out_help(scene, frame) : frame;
}

}  // namespace squeezeout
