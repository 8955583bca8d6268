#include "client/bench/figures_model.h"

#include <fmt/format.h>

#include "client/panels/chrome_model.h"
#include "client/panels/pages.h"
#include "client/words/craft.h"

namespace squeezeout::bench {
namespace {

using look::Canvas;
using look::Ink;
using look::Rect;
using look::Role;
using look::Type;

constexpr float kRowMm = 14.5F;

struct Row {
  std::string name, said, source;
};

// What the screen is about, and the hour that is told.
struct Subject {
  std::string title;
  Instant at{};
  const Quotes::Joint* joint = nullptr;
};

Subject subject_of(const Scene& scene) {
  const words::Context c = scene.context();
  if (const GlueUp* g = scene.floor.glue_up(scene.view.figures_of)) {
    const Instant at = g->times.open_begin;
    return {words::title(c, *g), at, &scene.quotes.joint(scene.floor, asked_of(*g), at, scene.now)};
  }
  const Recipe* recipe = scene.floor.recipe(scene.view.wanted.recipe);
  if (recipe == nullptr || scene.view.figures_of) return {};
  const Offer offer = offer_of(scene);
  return {recipe->name, offer.at, &offer.joint};
}

// "Deep clamps, force of one": what kind of gear a figure is of.
std::string name_of(const Scene& scene, const Figure& f) {
  std::string name = words::figure_name(f.of);
  const GearKind* kind = scene.floor.kind(f.kind);
  if (kind != nullptr && f.of != FigureOf::clamps) name = words::plural(kind->name) + ", " + name;
  name[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(name[0])));
  return name;
}

std::vector<Row> rows_of(const Scene& scene, const JointAnswer& answer) {
  const words::Context c = scene.context();
  std::vector<Row> rows;
  for (const Figure& f : answer.figures)
    rows.push_back({name_of(scene, f), words::figure(c, f), words::figure_source(f)});
  if (!answer.glues.empty())
    rows.push_back(
        {"Glues", "ranked for this joint at this hour", words::source(FormulaId::fitness)});
  for (const Fitness& f : answer.glues) {
    std::string all;
    for (const Reason& r : f.reasons) all += (all.empty() ? "" : "; ") + words::rule(r.rule);
    const AdhesiveSheet* sheet = scene.floor.sheet(f.sheet);
    const std::string worst = words::worst_reason(f);
    rows.push_back({sheet ? sheet->name : "Glue",
                    words::verdict(f.verdict) + (worst.empty() ? "" : ", " + worst), all});
  }
  for (const Caution caution : answer.cautions)
    rows.push_back({"Mind", words::caution(caution), ""});
  for (const OutOfRange& why : answer.left_out)
    rows.push_back({"Left out", words::left_out(why), ""});
  for (const FigureOf of : answer.unpublished)
    rows.push_back({"Left out", words::unpublished(of), ""});
  if (answer.unknown) rows.push_back({"Left out", words::left_out(*answer.unknown), ""});
  return rows;
}

// Name and figure on one line; where they come from under both.
void row_of(Canvas& canvas, Rect at, const Row& row, Role ground) {
  canvas.box(at, ground);
  Rect line = at.inset(canvas.px(2), canvas.px(0.5F));
  const float first = canvas.line_px(Type::strong);
  Rect text = line.middle(line.w, row.source.empty() ? first : first + canvas.line_px(Type::small));
  Rect head = text.cut_top(first);
  canvas.words(head.cut_left(canvas.px(92)), row.name, Type::body, {Role::muted, ground});
  head.cut_left(canvas.px(3));
  canvas.words(head, row.said, Type::strong, {Role::text, ground});
  canvas.words(text, row.source, Type::small, {Role::muted, ground});
}

}  // namespace

look::Frame lay_out_figures(const Scene& scene) {
  Canvas canvas{scene.scale, scene.letters, scene.width, scene.height};
  Rect body = panels::chrome_with_hint(canvas, scene);
  Rect head = body.cut_top(canvas.touch());
  body.cut_top(canvas.px(3));
  canvas.button(head.cut_right(canvas.px(30)), {.id = "close",
                                                .label = "Close",
                                                .key_name = "Esc",
                                                .keys = {look::kEscape},
                                                .intent = Back{}});
  head.cut_right(canvas.gap());
  const Subject subject = subject_of(scene);
  const Ink quiet{Role::muted, Role::background};
  if (subject.joint == nullptr || !*subject.joint) {
    canvas.words(head, "Nothing to explain", Type::head, {});
    canvas.words(body, "Choose what is glued first. Esc goes back.", Type::title, quiet);
    return canvas.take();
  }
  const std::vector<Row> rows = rows_of(scene, **subject.joint);
  const int all = static_cast<int>(rows.size());
  const panels::Page page =
      panels::page_of(all, static_cast<int>(body.h / canvas.px(kRowMm)), scene.view.page);
  panels::page_keys(canvas, head, page, all);
  Rect title = head.middle(head.w, canvas.line_px(Type::head) + canvas.line_px(Type::body));
  canvas.words(title.cut_top(canvas.line_px(Type::head)), "Why these figures", Type::head, {});
  canvas.words(
      title,
      fmt::format("{}, glue at {}", subject.title, words::clock(scene.context(), subject.at)),
      Type::body, quiet);
  for (int i = 0; i < page.count; ++i)
    row_of(canvas, body.cut_top(canvas.px(kRowMm)), rows[static_cast<std::size_t>(page.first + i)],
           i % 2 == 0 ? Role::lane : Role::background);
  return canvas.take();
}

}  // namespace squeezeout::bench
