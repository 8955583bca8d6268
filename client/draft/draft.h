#pragma once
// Draft: a shop that is being set up, page by page. It is kept on this device until it is opened; the server knows nothing of it.
//   Shape    a shop is never changed in place: each edit makes a new one and keeps the one before, so Undo is the one before
//   Keys     a thing keeps its key for good (the floor knows it by its key); a rename changes its name alone

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "common/floor/shop.h"

namespace squeezeout::draft {

enum class Page { device, shop, hours, people, gear, glues, recipes, units, open };
inline constexpr int kPages = 9;

using ShopState = std::shared_ptr<const Shop>;

// What the checks of the shop file and the floor say to it.
struct Tried {
  ShopState of;                       // none: not tried
  std::vector<std::string> mistakes;  // what, why, next; none: it can be opened
  std::vector<std::string> firsts;    // "Bridge: today 10:15": what could be reserved at once
};

struct Draft {
  ShopState shop;                 // none: nothing was changed yet
  std::vector<ShopState> before;  // what Undo goes back to, the newest last
  ShopState opened_over;          // the shop as it was before the draft was opened last
  ShopState running;     // the floor's shop, as it was when the draft met it; none: there was none
  std::string typed_in;  // the field of the last edit: letters typed in one field are one edit
  Tried tried;
  enum class Opening { no, asked } opening = Opening::no;
  struct Asked {
    ShopState draft;  // as it was when the server was asked: what is changed until the answer stays
    ShopState over;   // the shop as it was then
  } asked;
  Page page = Page::device;
  int day = 1;                    // chosen on the page of the hours, 0 = Sunday
  std::string filter, path;       // typed: of the zones, of a file
  std::vector<std::string> told;  // by the last file: its mistakes, with their lines
  std::shared_ptr<const std::vector<std::string>> zones;  // of this system, the machine's own first
};

inline constexpr std::size_t kMostUndo = 40;
inline constexpr std::size_t kMostLetters = 60;  // of a name
inline constexpr int kMostOfAKind = 9'999;

// One change to the shop of a draft. `at` counts from 0 in the shop's own list; `key` is of the starter set.
struct Edit {
  enum class What {
    undo,
    name,            // text
    zone,            // text
    open_from,       // day at, by half hours
    open_to,         // day at, by half hours
    open_or_closed,  // day at
    midday_break,    // day at
    as_day_before,   // day at
    add_bench,
    name_bench,        // at, text
    remove_bench,      // at
    one_at_a_time,     // at: turned round
    add_builder,       //
    name_builder,      // at, text
    remove_builder,    // at
    bench_of_builder,  // at: the next one
    gear_count,        // text: its key, of the shop or of the starter set; by pieces
    gear_exactly,      // text: its key; by: so many
    gear_for_recipe,   // text: a recipe's key: what it lacks
    glue,              // text: its key: taken or left out
    recipe,            // text: its key: copied or left out
    clock,             // turned round
    lengths,
    degrees,
  } what = What::undo;
  int at = 0, by = 0;
  std::string text = {};
  friend bool operator==(const Edit&, const Edit&) = default;
};
[[nodiscard]] std::string_view to_string(Edit::What what);

// A shop with nothing in it but where this machine stands, open on weekdays.
[[nodiscard]] Shop blank_shop(const std::string& zone);
// The draft that this device begins with; `running` is the floor's shop, when there is one. One that is there already stays, and
// learns what runs if it did not know.
[[nodiscard]] Draft begun(Draft draft, const std::optional<Shop>& running);
// An edit that does not apply (a bench that is gone, a closed day's hours) changes nothing.
[[nodiscard]] Draft edited(Draft draft, const Edit& edit);
// The field that was typed into is left: names end with no spaces, and what is typed next is another edit.
[[nodiscard]] Draft field_left(Draft draft);
// It is no draft any more; Undo brings it back.
[[nodiscard]] Draft put_away(Draft draft);
// Begun for a server without a shop, and nobody has changed anything.
[[nodiscard]] bool untouched(const Draft& draft);
// The shop as a whole is replaced by another: a file, a table of gear.
[[nodiscard]] Draft replaced(Draft draft, Shop shop);

// Rows of a gear page, as offered() orders them.
struct GearRow {
  std::string key, name;
  int count = 0;
  int usual = 0;  // of the starter set: what the first press adds
};
[[nodiscard]] std::vector<GearRow> gear_rows(const Shop& shop);

// Text that a person types or a file held, as a name: control characters are spaces, none before it, not too long.
[[nodiscard]] std::string as_name(std::string_view text, std::size_t most = kMostLetters);

}  // namespace squeezeout::draft
