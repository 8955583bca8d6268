// Messages Gear and Need read and checked, in the wire's form and the file's.
#include "common/trade/screw.h"
#include "proto/keys.h"
#include "proto/measures.h"
#include "shop.pb.h"

namespace squeezeout {
namespace {

GearClass gear_class(const At& at, v1::GearClass given) {
  if (given == v1::GEAR_CLASS_UNSPECIFIED) {
    at("class").wrong("is missing",
                      "use one of: GEAR_CLASS_CLAMP, GEAR_CLASS_GO_BAR, GEAR_CLASS_CAUL, ...");
    return {};
  }
  return one_of<GearClass>(at("class"), given, kGearClasses);
}

struct Size {
  Millimetre opening, throat, length;
  Newton force;
};
template <class M>  // v1::Gear or v1::Need
Size read_size(const At& at, const M& m) {
  return {.opening = {measure(at("opening_mm"), m.opening_mm(), 0, kMostMillimetres)},
          .throat = {measure(at("throat_mm"), m.throat_mm(), 0, kMostMillimetres)},
          .length = {measure(at("length_mm"), m.length_mm(), 0, kMostMillimetres)},
          .force = {measure(at("force_newton"), m.force_newton(), 0, kMostNewtons)}};
}
std::string read_tag(const At& at, const std::string& tag) {
  if (tag.find_first_of("/;") != std::string::npos)
    at.wrong("holds \"/\" or \";\"", "leave them out: they part keys and tags");
  return text(at, tag);
}

GearKind read_rod(const At& at, const v1::Rod& m, GearKind kind) {
  kind.rod_width = {measure(at("width_mm"), m.width_mm(), 0, kMostMillimetres)};
  kind.rod_thickness = {measure(at("thickness_mm"), m.thickness_mm(), 0, kMostMillimetres)};
  kind.rod_stiffness = {measure(at("stiffness_gpa"), m.stiffness_gpa(), 0, kMostGigapascals)};
  kind.rod_strength = {measure(at("strength_mpa"), m.strength_mpa(), 0, kMostMegapascals)};
  return kind;
}

// Whether its force can be worked out from what is said of it.
void check_force(const At& at, const GearKind& kind, const v1::Gear& m) {
  if (kind.torque.value > 0 && kind.screw.empty())
    at("torque_newton_metre")
        .wrong("is given without a screw", "name its thread, screw: \"Tr12x3\", or leave it out");
  else if (kind.torque.value > 0 && !screw_of(kind.screw))
    at("screw").wrong(fmt::format("\"{}\" is no thread that is known", kind.screw),
                      "write \"Tr12x3\", \"Tr14x6P3\", \"M8\" or \"M8x1\", or leave out "
                      "torque_newton_metre");
  if (!m.has_rod()) return;
  const At rod = at("rod");
  if (kind.gear_class != GearClass::go_bar)
    return rod.wrong("is given of what is no go-bar", "leave it out");
  if (m.length_mm() == 0)
    at("length_mm").wrong("is missing", "say how long the bar is before it is sprung");
  const auto missing = [&](const char* field, double v, const char* mend) {
    if (v == 0) rod(field).wrong("is missing", mend);
  };
  missing("width_mm", m.rod().width_mm(), "say how wide the bar is: width_mm: 12");
  missing("thickness_mm", m.rod().thickness_mm(), "say how thick the bar is: thickness_mm: 5");
  missing("stiffness_gpa", m.rod().stiffness_gpa(),
          "say how stiff its wood is: stiffness_gpa: 13.5");
}

// What all units of a gear share. `unit` and `count` say how many kinds come of it.
GearKind read_gear(const At& at, const v1::Gear& m) {
  const Size size = read_size(at, m);
  GearKind kind{
      .id = {},
      .key = m.key(),
      .name = name_of(at, m.name()),
      .gear_class = gear_class(at, m.class_()),
      .tag = read_tag(at("tag"), m.tag()),
      .style = text(at("style"), m.style()),
      .stock = 1,
      .opening = size.opening,
      .throat = size.throat,
      .length = size.length,
      .force = size.force,
      .pad = {measure(at("pad_mm"), m.pad_mm(), 0, kMostMillimetres)},
      .screw = text(at("screw"), m.screw()),
      .torque = {measure(at("torque_newton_metre"), m.torque_newton_metre(), 0, kMostNewtonMetres)},
      .size = text(at("size"), m.size()),
      .outline = text(at("outline"), m.outline()),
      .hot = m.hot()};
  return m.has_rod() ? read_rod(at("rod"), m.rod(), std::move(kind)) : kind;
}

void add_units(const At& at, const v1::Gear& m, const GearKind& common, Keys<GearKindId>& keys,
               std::vector<GearKind>& out) {
  if (!few_enough(at("unit"), m.unit_size())) return;
  if (m.has_count())
    at("count").wrong("is given beside units",
                      "leave out `count` (tagged gear) or every `unit` (counted gear)");
  for (int i = 0; i < m.unit_size(); ++i) {
    const At here = at("unit", i);
    GearKind kind = common;
    kind.tag = read_tag(here, m.unit(i));
    if (kind.tag.empty()) here.wrong("is empty", "give each piece a tag: \"A\"");
    kind.key += "/" + kind.tag;
    kind.name = text(at("name"), kind.name + " " + kind.tag);
    kind.id = keys.add(at, here, kind.key, m.id());
    out.push_back(std::move(kind));
  }
}

void add_gear(const At& at, const v1::Gear& m, Ids ids, Keys<GearKindId>& keys,
              std::vector<GearKind>& out) {
  GearKind kind = read_gear(at, m);
  if (ids == Ids::by_order) check_force(at, kind, m);
  const bool slash = m.key().find('/') != std::string::npos;
  if (m.unit_size() > 0 && ids == Ids::by_order && kind.tag.empty()) {
    if (m.key().empty()) at("key").wrong("is missing", "give the gear a key of its own");
    if (slash)
      at("key").wrong("holds \"/\"", "leave it out: units are keyed \"key/TAG\" by themselves");
    return add_units(at, m, kind, keys, out);
  }
  if (m.unit_size() > 0) at("unit").wrong("is given beside `tag` or `id`", "leave it out");
  if (kind.tag.empty()) {
    if (slash) at("key").wrong("holds \"/\"", "only the key of a tagged unit, \"key/TAG\", may");
    if (!m.has_count() && ids == Ids::by_order)
      at("count").wrong("and `unit` are both left out",
                        "say how many pieces there are, or name each with `unit`");
    kind.stock = number(at("count"), m.count(), 0, kMaxCount);
  } else {
    if (!m.key().ends_with("/" + kind.tag) || m.key().size() == kind.tag.size() + 1)
      at("key").wrong(fmt::format("does not end in \"/{}\"", kind.tag),
                      "the key of one tagged unit is \"key/TAG\"");
    if (m.has_count()) kind.stock = number(at("count"), m.count(), 0, 1);
  }
  kind.id = keys.add(at, m);
  out.push_back(std::move(kind));
}

}  // namespace

GearNeed from_wire(const At& at, const v1::Need& m) {
  const Size size = read_size(at, m);
  return {.gear_class = gear_class(at, m.class_()),
          .count = number(at("count"), m.count(), 0, kMaxCount),
          .opening = size.opening,
          .throat = size.throat,
          .length = size.length,
          .force = size.force,
          .style = text(at("style"), m.style()),
          .outline = text(at("outline"), m.outline())};
}

std::vector<GearKind> gear_from_wire(const At& at, const v1::Shop& m, Ids ids) {
  std::vector<GearKind> gear;
  Keys<GearKindId> kinds("gear", ids);
  if (!few_enough(at("gear"), m.gear_size())) return gear;
  for (int i = 0; i < m.gear_size(); ++i) add_gear(at("gear", i), m.gear(i), ids, kinds, gear);
  if (!few_enough(at("gear"), static_cast<int>(gear.size()))) gear.clear();
  return gear;
}

}  // namespace squeezeout
