#include <algorithm>
#include <array>

#include "client/draft/edit_parts.h"

namespace squeezeout::draft {
namespace {

using What = Edit::What;

constexpr std::array<std::string_view, 24> kWords{"undo",
                                                  "name",
                                                  "zone",
                                                  "open-from",
                                                  "open-to",
                                                  "open-closed",
                                                  "midday-break",
                                                  "as-day-before",
                                                  "add-bench",
                                                  "name-bench",
                                                  "remove-bench",
                                                  "one-at-a-time",
                                                  "add-builder",
                                                  "name-builder",
                                                  "remove-builder",
                                                  "bench-of-builder",
                                                  "gear-count",
                                                  "gear-exactly",
                                                  "gear-for-recipe",
                                                  "glue",
                                                  "recipe",
                                                  "clock",
                                                  "lengths",
                                                  "degrees"};

// The field that letters go to: typing in one field is one edit.
std::string field_of(const Edit& edit) {
  switch (edit.what) {
    case What::name:
    case What::name_bench:
    case What::name_builder:
    case What::gear_exactly:
      return std::string(to_string(edit.what)) + std::to_string(edit.at) +
             (edit.what == What::gear_exactly ? edit.text : "");
    default:
      return {};
  }
}

template <class E>
void turn_round(E& value, E one, E other) {
  value = value == one ? other : one;
}

void edit_shop(Shop& shop, const Edit& edit) {
  using D = Display;
  switch (edit.what) {
    case What::name:
      shop.name = edit.text;
      break;
    case What::zone:
      if (Zone::find(edit.text)) shop.zone = edit.text;
      break;
    case What::clock:
      turn_round(shop.display.clock, D::Clock::hours_24, D::Clock::hours_12);
      break;
    case What::lengths:
      turn_round(shop.display.lengths, D::Lengths::mm, D::Lengths::inch);
      break;
    case What::degrees:
      turn_round(shop.display.degrees, D::Degrees::celsius, D::Degrees::fahrenheit);
      break;
    default:
      break;
  }
}

void remember(Draft& draft) {
  if (draft.shop) draft.before.push_back(draft.shop);
  if (draft.before.size() > kMostUndo) draft.before.erase(draft.before.begin());
}

Draft with(Draft draft, Shop next, const std::string& field) {
  if (draft.shop && next == *draft.shop) return draft;
  if (field.empty() || field != draft.typed_in) remember(draft);
  draft.shop = std::make_shared<const Shop>(std::move(next));
  draft.typed_in = field;
  return draft;
}

void trim_end(std::string& name) { name.erase(name.find_last_not_of(' ') + 1); }

Draft undone(Draft draft) {
  draft.typed_in.clear();
  if (draft.before.empty()) return draft;
  draft.shop = draft.before.back();
  draft.before.pop_back();
  return draft;
}

}  // namespace

std::string_view to_string(What what) { return kWords[static_cast<std::size_t>(what)]; }

std::string as_name(std::string_view text, std::size_t most) {
  std::string out;
  std::size_t letters = 0;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    const bool begins = (byte & 0xC0U) != 0x80U;
    if (begins && letters == most) break;
    letters += begins ? 1 : 0;
    out += byte < 0x20 || byte == 0x7F ? ' ' : c;
  }
  const std::size_t first = out.find_first_not_of(' ');
  return first == std::string::npos ? "" : out.substr(first);
}

Shop blank_shop(const std::string& zone) {
  Shop shop;
  shop.name = "Our shop";
  shop.zone = zone;
  for (int day = 1; day <= 5; ++day)
    shop.hours.weekday[static_cast<std::size_t>(day)] = {{8 * 60, 17 * 60}};
  shop.benches.push_back({BenchId{1}, "bench-1", "Bench 1"});
  shop.builders.push_back({BuilderId{1}, "builder-1", "Builder 1", BenchId{1}, {}});
  return shop;
}

Draft begun(Draft draft, const std::optional<Shop>& running) {
  if (running && !draft.running) draft.running = std::make_shared<const Shop>(*running);
  if (draft.shop) return draft;
  if (running) {
    draft.running = draft.shop = std::make_shared<const Shop>(*running);
    return draft;
  }
  const bool known = draft.zones && !draft.zones->empty();
  draft.shop = std::make_shared<const Shop>(blank_shop(known ? draft.zones->front() : "UTC"));
  return draft;
}

Draft edited(Draft draft, const Edit& given) {
  if (!draft.shop) return draft;
  Edit edit = given;
  if (edit.what != What::gear_exactly) edit.text = as_name(edit.text);
  if (edit.what == What::undo) return undone(std::move(draft));
  Shop shop = *draft.shop;
  edit_shop(shop, edit);
  edit_hours(shop.hours, edit);
  Known known{draft.shop.get()};
  if (draft.running) known.push_back(draft.running.get());
  for (const ShopState& before : draft.before) known.push_back(before.get());
  edit_people(shop, edit, known);
  edit_gear(shop, edit, draft.running.get(), known);
  edit_craft(shop, edit, draft.running.get());
  return with(std::move(draft), std::move(shop), field_of(edit));
}

Draft field_left(Draft draft) {
  if (draft.typed_in.empty()) return draft;
  draft.typed_in.clear();
  if (!draft.shop) return draft;
  Shop shop = *draft.shop;
  trim_end(shop.name);
  for (Bench& b : shop.benches) trim_end(b.name);
  for (Builder& b : shop.builders) trim_end(b.name);
  if (shop != *draft.shop) draft.shop = std::make_shared<const Shop>(std::move(shop));
  return draft;
}

Draft put_away(Draft draft) {
  remember(draft);
  draft.shop = draft.running = nullptr;
  draft.typed_in.clear();
  draft.told.clear();
  draft.tried = {};
  return draft;
}

bool untouched(const Draft& draft) {
  return draft.shop && draft.before.empty() && *draft.shop == blank_shop(draft.shop->zone);
}

Draft replaced(Draft draft, Shop shop) { return with(std::move(draft), std::move(shop), {}); }

}  // namespace squeezeout::draft
