#include "client/help/help_words.h"

#include "client/words/say.h"
#include "common/base/check.h"

namespace squeezeout::help {

using words::tr;

std::string name_of(Screen screen) {
  switch (screen) {
    case Screen::bench:
      return tr("The bench");
    case Screen::reserve:
      return tr("Reserving a glue-up");
    case Screen::card:
      return tr("The card of a glue-up");
    case Screen::board:
      return tr("The board");
    case Screen::wall:
      return tr("The wall");
    case Screen::day:
      return tr("The day sheet");
    case Screen::snags:
      return tr("Snags");
    case Screen::gear:
      return tr("The gear");
    case Screen::figures:
      return tr("Why these figures");
    case Screen::air:
      return tr("Shop air and bottles");
    case Screen::plan:
      return tr("The plan");
    case Screen::what_if:
      return tr("What if");
    case Screen::setup:
      return tr("Set-up");
  }
  CHECK(!"a screen outside the enumeration");
}

std::vector<std::string> purpose(Screen screen) {
  switch (screen) {
    case Screen::bench:
      return {tr("Your glue-ups, what is urgent first. The big key is the next step of the first: "
                 "Start, Clamps on, Clamps off, and its finish."),
              tr("A tile, then RESERVE, reserves the next glue-up: gear, bench and your time.")};
    case Screen::reserve:
      return {tr("The earliest time at which gear, glue and you are free, with its cautions. "
                 "Nothing is reserved until the server says so."),
              tr("Another glue, a later time, or another builder: press it, and the time is worked "
                 "out anew. Why not sooner stands below the time.")};
    case Screen::card:
      return {tr("One glue-up, to be read from across the bench: wet, the time left before the "
                 "clamps must be on; then the time at which they can come off."),
              tr("Pressed too late? Really off tells when the clamps came off. Pressed wrongly? "
                 "Undo, in the foot, takes it back for an hour.")};
    case Screen::board:
      return {tr("Who holds what, and when: time runs to the right, the upright line is now."),
              tr("Press a bar: it says why it stands there, and what can be done.")};
    case Screen::wall:
      return {tr("What frees next, what is over its time, what is free now. It takes no presses.")};
    case Screen::day:
      return {
          tr("What was glued on one day: planned and real times side by side, how busy the "
             "gear was, what cures overnight, what is first tomorrow.")};
    case Screen::snags:
      return {
          tr("What has lost its place, what the weather moved, and builds that will be late. "
             "Each says why, and offers times that can be had."),
          tr("REPAIR looks for places for all of them at once. Nothing moves before you accept.")};
    case Screen::gear:
      return {tr("Every kind of gear: how many are free, or when the next is. Press a kind to see "
                 "who holds it."),
              tr("Broken is a fact and takes the piece out of all plans at once; what loses its "
                 "place is shown under Snags.")};
    case Screen::figures:
      return {
          tr("Every figure with its range, what sets it, and where it comes from: a book, "
             "practice, or memory.")};
    case Screen::air:
      return {tr("The air as it was read, and what is ahead. Tell a reading or a cold night here: "
                 "glue that cures slower in the cold is planned longer."),
              tr("Bottles with their age: put new ones here, and say when one is used up.")};
    case Screen::plan:
      return {tr("A proposal: what should move, from when to when. Nothing moves before ACCEPT, "
                 "and one press takes it back for an hour."),
              tr("Esc leaves it as it is: it is seen again from Snags and from the board.")};
    case Screen::what_if:
      return {
          tr("What one more piece of gear, or longer hours, would have saved in waiting: every "
             "glue-up on record and ahead is placed again with that one change.")};
    case Screen::setup:
      return {
          tr("This device: theme, letters, millimetres, sound, printer. And the shop itself: "
             "hours, gear, glues, recipes, people.")};
  }
  CHECK(!"a screen outside the enumeration");
}

Draws draws(Screen screen) {
  switch (screen) {
    case Screen::bench:
    case Screen::reserve:
    case Screen::card:
    case Screen::board:
    case Screen::wall:
      return Draws::phases;
    default:
      return Draws::words;
  }
}

std::vector<std::string> marks(Screen screen) {
  switch (screen) {
    case Screen::board:
      return {
          tr("A narrow strip with hours on it: the shop is closed then."),
          tr("Small links and a dashed outline: the chain of glue-ups that wait for each other."),
          tr("+N: so many more than there is room for.")};
    case Screen::reserve:
      return {
          tr("A glue with a dashed edge does not suit this joint: it takes a reason, which goes "
             "on record.")};
    case Screen::gear:
      return {tr("The bar in a tile: filled is held, hatched is out of use, empty is free.")};
    case Screen::what_if:
      return {tr("The bar below a row: what it saves beside what the first saves.")};
    default:
      return {};
  }
}

}  // namespace squeezeout::help
