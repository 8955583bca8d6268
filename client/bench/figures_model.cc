#include "client/bench/figures_model.h"

#include <fmt/format.h>

#include "client/bench/joint_column.h"
#include "client/panels/chrome_model.h"
#include "client/panels/pages.h"
#include "client/panels/room.h"
#include "client/words/craft.h"
#include "client/words/say.h"

namespace squeezeout::bench {
namespace {

using look::Canvas;
using look::Ink;
using look::Rect;
using look::Role;
using look::Type;

constexpr int kSaidLines = 8;  // what is to be minded is read whole

struct Row {
  std::string name, said, source;
};

// What the screen is about, and the hour that is told.
struct Subject {
  std::string title;
  Reserve asked{};
  Instant at{};
  const Quotes::Joint* joint = nullptr;
};

Subject subject_of(const Scene& scene) {
  const words::Context c = scene.context();
  if (const GlueUp* g = scene.floor.glue_up(scene.view.figures_of)) {
    const Instant at = g->times.open_begin;
    const Reserve asked = asked_of(*g);
    return {words::title(c, *g), asked, at, &scene.quotes.joint(scene.floor, asked, at, scene.now)};
  }
  const Recipe* recipe = scene.floor.recipe(scene.view.wanted.recipe);
  if (recipe == nullptr || scene.view.figures_of) return {};
  const Offer offer = offer_of(scene);
  return {recipe->name, scene.view.wanted, offer.at, &offer.joint};
}

// "Deep clamps, force of one": what kind of gear a figure is of.
std::string name_of(const Scene& scene, const Figure& f) {
  std::string name = words::figure_name(f.of);
  const GearKind* kind = scene.floor.kind(f.kind);
  if (kind != nullptr && f.of != FigureOf::clamps)
    name = words::say("{}, {}", words::plural(kind->name), name);
  name[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(name[0])));
  return name;
}

// What to mind stands first.
std::vector<Row> rows_of(const Scene& scene, const Reserve& asked, const JointAnswer& answer) {
  const words::Context c = scene.context();
  std::vector<Row> rows;
  const Recipe* recipe = scene.floor.recipe(asked.recipe);
  if (recipe != nullptr)
    for (const std::string& caution : cautions(c, *recipe, asked.sheet, &answer))
      rows.push_back({words::tr("Mind"), caution, ""});
  for (const Figure& f : answer.figures)
    rows.push_back({name_of(scene, f), words::figure(c, f), words::figure_source(f)});
  if (recipe != nullptr)
    for (const GearNeed& need : recipe->needs)
      rows.push_back({words::tr("Gear"), words::need(c, need), words::tr("of the recipe")});
  if (!answer.glues.empty())
    rows.push_back({words::tr("Glues"), words::tr("ranked for this joint at this hour"),
                    words::source(FormulaId::fitness)});
  for (const Fitness& f : answer.glues) {
    std::string all;
    for (const Reason& r : f.reasons) all += (all.empty() ? "" : "; ") + words::rule(r.rule);
    const AdhesiveSheet* sheet = scene.floor.sheet(f.sheet);
    const std::string worst = words::worst_reason(f);
    const std::string verdict = words::verdict(f.verdict);
    rows.push_back({sheet ? sheet->name : words::tr("Glue"),
                    worst.empty() ? verdict : words::say("{}, {}", verdict, worst), all});
  }
  for (const OutOfRange& why : answer.left_out)
    rows.push_back({words::tr("Left out"), words::left_out(why), ""});
  for (const FigureOf of : answer.unpublished)
    rows.push_back({words::tr("Left out"), words::unpublished(of), ""});
  if (answer.unknown) rows.push_back({words::tr("Left out"), words::left_out(*answer.unknown), ""});
  return rows;
}

// Name and figure beside each other; where they come from under both. As tall as their letters need.
struct RowSize {
  float name_w = 0, said_h = 0, source_h = 0;
  float all(const Canvas& canvas) const { return said_h + source_h + canvas.px(2.5F); }
};
RowSize size_of(const Canvas& canvas, float width, const Row& row) {
  const auto tall = [&](Type type, const std::string& text, float w, int most) {
    return text.empty()
               ? 0.0F
               : canvas.line_px(type) *
                     static_cast<float>(canvas.letters().wrapped(type, text, w, most).size());
  };
  RowSize out;
  out.name_w = std::min(canvas.px(92), width * 0.3F);
  const float inside = width - canvas.px(4);
  out.said_h =
      std::max(tall(Type::body, row.name, out.name_w, 2),
               tall(Type::strong, row.said, inside - out.name_w - canvas.px(3), kSaidLines));
  out.source_h = tall(Type::small, row.source, inside, 4);
  return out;
}

void row_of(Canvas& canvas, Rect at, const Row& row, const RowSize& size, Role ground) {
  canvas.box(at, ground);
  Rect line = at.inset(canvas.px(2), canvas.px(1));
  Rect head = line.cut_top(size.said_h);
  canvas.paragraph(head.cut_left(size.name_w), row.name, Type::body, {Role::muted, ground}, 2);
  head.cut_left(canvas.px(3));
  canvas.paragraph(head, row.said, Type::strong, {Role::text, ground}, kSaidLines);
  if (!row.source.empty())
    canvas.paragraph(line, row.source, Type::small, {Role::muted, ground}, 4);
}

}  // namespace

look::Frame lay_out_figures(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  Rect body = panels::chrome_with_hint(canvas, scene);
  Rect head = body.cut_top(canvas.touch());
  body.cut_top(canvas.px(3));
  canvas.button(head.cut_right(std::max(canvas.touch(), canvas.px(24))),
                {.id = "close",
                 .label = words::tr("Close"),
                 .key_name = "Esc",
                 .keys = {look::kEscape},
                 .intent = Back{}});
  head.cut_right(canvas.gap());
  const Subject subject = subject_of(scene);
  const Ink quiet{Role::muted, Role::background};
  if (subject.joint == nullptr || !*subject.joint) {
    canvas.words(head, words::tr("Nothing to explain"), Type::head, {});
    canvas.paragraph(body, words::tr("Choose what is glued first. Esc goes back."), Type::title,
                     quiet, 2);
    return canvas.take();
  }
  const std::vector<Row> rows = rows_of(scene, subject.asked, **subject.joint);
  std::vector<RowSize> sizes;
  std::vector<float> heights;
  for (const Row& row : rows) {
    sizes.push_back(size_of(canvas, body.w, row));
    heights.push_back(sizes.back().all(canvas));
  }
  const panels::Page page = panels::page_of(heights, body.h, scene.view.page);
  panels::page_keys(canvas, head, page, static_cast<int>(rows.size()));
  Rect title = head.middle(head.w, std::min(head.h, panels::heading_px(canvas)));
  const Rect sub = title.cut_bottom(canvas.line_px(Type::body));
  canvas.words(title, words::tr("Why these figures"), Type::head, {});
  canvas.words(
      sub, words::say("{}, glue at {}", subject.title, words::clock(scene.context(), subject.at)),
      Type::body, quiet);
  for (int i = 0; i < page.count; ++i) {
    const auto n = static_cast<std::size_t>(page.first + i);
    row_of(canvas, body.cut_top(heights[n]), rows[n], sizes[n],
           i % 2 == 0 ? Role::lane : Role::background);
  }
  return canvas.take();
}

}  // namespace squeezeout::bench
