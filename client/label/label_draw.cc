#include "client/label/label_draw.h"

#include <cairo-pdf.h>
#include <cairo.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "client/words/say.h"

namespace squeezeout::label {
namespace {

constexpr double kMmPerInch = 25.4, kPointsPerInch = 72;
constexpr double kGapMm = 3;
constexpr double kNameMm = 6.5, kLeastNameMm = 3;  // cap height
constexpr double kLeastSubMm = 2.5;
constexpr double kGrowMm = 10;

struct Free {
  void operator()(PangoLayout* p) const { g_object_unref(p); }
  void operator()(PangoFontDescription* p) const { pango_font_description_free(p); }
  void operator()(cairo_font_options_t* p) const { cairo_font_options_destroy(p); }
  void operator()(cairo_surface_t* p) const { cairo_surface_destroy(p); }
  void operator()(cairo_t* p) const { cairo_destroy(p); }
};
template <class T>
using Owned = std::unique_ptr<T, Free>;

double mm(int pango_units) { return static_cast<double>(pango_units) / PANGO_SCALE; }

// One line of text that pango can set, whatever a name is made of.
std::string clean(const std::string& text) {
  char* valid = g_utf8_make_valid(text.data(), static_cast<gssize>(text.size()));
  std::string out = valid;
  g_free(valid);
  for (char& c : out)
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) c = ' ';
  return out;
}

// Sets text on a page whose unit is the millimetre.
class Pen {
 public:
  explicit Pen(cairo_t* cr) : cr_(cr) {
    const Owned<cairo_font_options_t> options{cairo_font_options_create()};
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    cairo_set_font_options(cr_, options.get());
    constexpr double kTrial = 100;
    const Owned<PangoLayout> one = layout("1", kTrial, 0);
    cap_ = ink(one.get()).height / kTrial;
  }

  struct Extents {
    double x, y, width, height;
  };
  static Extents ink(PangoLayout* layout) {
    PangoRectangle r;
    pango_layout_get_extents(layout, &r, nullptr);
    return {mm(r.x), mm(r.y), mm(r.width), mm(r.height)};
  }

  // Letters whose capitals are so high; in lines no wider than `width`, 0: one line.
  Owned<PangoLayout> set(const std::string& text, double cap_mm, double width = 0) const {
    return layout(clean(text), cap_mm / cap_, width);
  }
  // The first baseline so far down.
  void show(PangoLayout* layout, double x, double baseline) const {
    cairo_move_to(cr_, x, baseline - mm(pango_layout_get_baseline(layout)));
    pango_cairo_show_layout(cr_, layout);
  }

 private:
  Owned<PangoLayout> layout(const std::string& text, double size, double width) const {
    Owned<PangoLayout> out{pango_cairo_create_layout(cr_)};
    pango_context_set_round_glyph_positions(pango_layout_get_context(out.get()), FALSE);
    const Owned<PangoFontDescription> font{pango_font_description_from_string("Inter Bold")};
    pango_font_description_set_absolute_size(font.get(), size * PANGO_SCALE);
    pango_layout_set_font_description(out.get(), font.get());
    pango_layout_set_text(out.get(), text.data(), static_cast<int>(text.size()));
    if (width > 0) {
      pango_layout_set_width(out.get(), static_cast<int>(width * PANGO_SCALE));
      pango_layout_set_wrap(out.get(), PANGO_WRAP_WORD_CHAR);
    }
    return out;
  }
  cairo_t* cr_;
  double cap_ = 1;  // of the letters' size
};

// The upper half: "OFF" and the day in a column, then the numerals, then what follows them.
struct Head {
  std::vector<Owned<PangoLayout>> beside;
  double beside_cap = 0, beside_width = 0;
  Owned<PangoLayout> time, after;
  Pen::Extents time_ink{};
  double width = 0;
};

Head head_of(const Pen& pen, const Label& label) {
  Head out;
  const auto lines = static_cast<double>(label.beside.size());
  out.beside_cap = std::min(9.0, kNumeralMm / (lines + (lines - 1) * 0.6));
  for (const std::string& word : label.beside) {
    out.beside.push_back(pen.set(word, out.beside_cap));
    const Pen::Extents ink = Pen::ink(out.beside.back().get());
    out.beside_width = std::max(out.beside_width, ink.x + ink.width);
  }
  out.time = pen.set(label.time, kNumeralMm);
  out.time_ink = Pen::ink(out.time.get());
  out.width = out.beside_width + kGapMm + out.time_ink.width;
  if (label.after.empty()) return out;
  out.after = pen.set(label.after, kNameMm);
  const Pen::Extents ink = Pen::ink(out.after.get());
  out.width += kGapMm + ink.x + ink.width;
  return out;
}

void show(const Pen& pen, const Head& head) {
  const double foot = kMarginMm + kNumeralMm;
  const auto lines = static_cast<double>(head.beside.size());
  const double pitch = lines > 1 ? (kNumeralMm - head.beside_cap) / (lines - 1) : 0;
  double baseline = lines > 1 ? kMarginMm + head.beside_cap : foot;
  for (const auto& word : head.beside) {
    pen.show(word.get(), kMarginMm, baseline);
    baseline += pitch;
  }
  double x = kMarginMm + head.beside_width + kGapMm;
  pen.show(head.time.get(), x - head.time_ink.x, foot);
  x += head.time_ink.width + kGapMm;
  if (head.after) pen.show(head.after.get(), x, foot);
}

// The lower half: the name, and below it glue and builder.
struct Body {
  Owned<PangoLayout> name, sub;
  double length = 0;  // of the whole label
};

double height(PangoLayout* layout) {
  PangoRectangle r;
  pango_layout_get_extents(layout, nullptr, &r);
  return mm(r.height);
}

Body body_of(const Pen& pen, const Label& label, double length) {
  const double room = kTapeMm - kMarginMm - kNumeralMm - kMarginMm - 1;
  for (;; length += kGrowMm)
    for (double cap = kNameMm; cap >= kLeastNameMm; cap -= 0.5) {
      const double width = length - 2 * kMarginMm;
      Body out{pen.set(label.name, cap, width),
               pen.set(label.glue + " · " + label.builder, std::max(kLeastSubMm, cap * 0.7), width),
               length};
      if (height(out.name.get()) + height(out.sub.get()) <= room) return out;
    }
}

void show(const Pen& pen, const Body& body) {
  const auto first = [](PangoLayout* layout) { return mm(pango_layout_get_baseline(layout)); };
  const double sub = kTapeMm - 1 - height(body.sub.get());
  pen.show(body.sub.get(), kMarginMm, sub + first(body.sub.get()));
  const double name = sub - height(body.name.get());
  pen.show(body.name.get(), kMarginMm, name + first(body.name.get()));
}

double drawn(cairo_t* cr, const Label& label, double units_per_mm) {
  cairo_save(cr);
  cairo_scale(cr, units_per_mm, units_per_mm);
  const Pen pen{cr};
  const Head head = head_of(pen, label);
  const double least = std::max(kLeastLengthMm, std::ceil(head.width + 2 * kMarginMm));
  const Body body = body_of(pen, label, least);
  cairo_set_source_rgb(cr, 0, 0, 0);
  show(pen, head);
  show(pen, body);
  cairo_restore(cr);
  return body.length;
}

std::optional<words::Told> trouble(cairo_status_t status, const std::string& file) {
  if (status == CAIRO_STATUS_SUCCESS) return std::nullopt;
  return words::Told{words::tr("The label was not written."),
                     words::say("{}: {}.", file, cairo_status_to_string(status)),
                     words::tr("Look whether the folder is there and has room.")};
}

}  // namespace

double length_mm(const Label& label) {
  const Owned<cairo_surface_t> surface{
      cairo_recording_surface_create(CAIRO_CONTENT_ALPHA, nullptr)};
  const Owned<cairo_t> cr{cairo_create(surface.get())};
  return drawn(cr.get(), label, 1);
}

std::optional<words::Told> write_png(const Label& label, const std::string& file) {
  const double dots = kDotsPerInch / kMmPerInch;
  const int width = static_cast<int>(std::lround(length_mm(label) * dots));
  const int tall = static_cast<int>(std::lround(kTapeMm * dots));
  const Owned<cairo_surface_t> surface{cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, tall)};
  {
    const Owned<cairo_t> cr{cairo_create(surface.get())};
    cairo_set_source_rgb(cr.get(), 1, 1, 1);
    cairo_paint(cr.get());
    drawn(cr.get(), label, dots);
  }
  return trouble(cairo_surface_write_to_png(surface.get(), file.c_str()), file);
}

std::optional<words::Told> write_pdf(const Label& label, const std::string& file) {
  const double points = kPointsPerInch / kMmPerInch;
  const Owned<cairo_surface_t> surface{
      cairo_pdf_surface_create(file.c_str(), length_mm(label) * points, kTapeMm * points)};
  {
    const Owned<cairo_t> cr{cairo_create(surface.get())};
    drawn(cr.get(), label, points);
    cairo_show_page(cr.get());
  }
  cairo_surface_finish(surface.get());
  return trouble(cairo_surface_status(surface.get()), file);
}

}  // namespace squeezeout::label
