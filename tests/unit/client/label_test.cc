// The tape label as data, and measured on its picture.

#include "client/label/label.h"

#include <cairo.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <filesystem>
#include <fstream>

#include "client/label/label_draw.h"
#include "tests/support/floor/small_shop.h"

namespace squeezeout::label {
namespace {

using namespace squeezeout::testing;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

const Instant kTen = at("2026-11-26T10:00:00Z");  // a Thursday

class LabelTest : public ::testing::Test {
 protected:
  LabelTest() : bench(kTen) {}
  GlueUpId clamped(RecipeId recipe = kBridge, BuildId build = kBuild14) {
    const GlueUpId id = bench.reserve(recipe, kAda, {}, build);
    bench.set(bench.glue_up(id).times.stage_begin);
    EXPECT_TRUE(bench.press(Start{id}));
    bench.wait(Minutes{4});
    EXPECT_TRUE(bench.press(ClampsOn{id, bench.now()}));
    return id;
  }
  Result<Label, words::Told> of(GlueUpId id) { return label_of(bench.floor(), id, bench.now()); }
  squeezeout::testing::Bench bench;
};

TEST_F(LabelTest, TellsWhenTheClampsComeOffWhoseItIsAndWhichGlue) {
  const GlueUpId id = clamped();
  const auto label = of(id);
  ASSERT_TRUE(label);
  EXPECT_THAT(label->beside, ElementsAre("OFF"));
  const words::Context c{bench.floor(), bench.now()};
  EXPECT_EQ(label->time, words::clock(c, bench.glue_up(id).times.release_begin));
  EXPECT_EQ(label->after, "");
  EXPECT_EQ(label->name, "No. 14 · bridge");
  EXPECT_EQ(label->glue, words::glue(c, bench.glue_up(id)));
  EXPECT_EQ(label->builder, words::builder(c, kAda));
  EXPECT_EQ(to_write(*label), "OFF " + label->time + " · No. 14 · bridge · " + label->glue);
}

TEST_F(LabelTest, BeforeTheClampsAreOnItSaysAbout) {
  const GlueUpId id = bench.reserve(kBridge, kAda);
  ASSERT_TRUE(of(id));
  EXPECT_THAT(of(id)->beside, ElementsAre("OFF", "about"));
  EXPECT_THAT(to_write(*of(id)), HasSubstr("OFF about 1"));
}

TEST_F(LabelTest, AnotherDayIsNamed) {
  const GlueUpId tomorrow = bench.reserve(kBridge, kAda, at("2026-11-27T09:00:00Z"));
  ASSERT_TRUE(of(tomorrow));
  EXPECT_THAT(of(tomorrow)->beside, ElementsAre("OFF", "about", "Fri"));
  const GlueUpId later = bench.reserve(kBridge, kAda, at("2026-12-04T09:00:00Z"));
  ASSERT_TRUE(of(later));
  EXPECT_THAT(of(later)->beside, ElementsAre("OFF", "about", "Fri", "4 Dec"));
  EXPECT_THAT(to_write(*of(later)), HasSubstr("OFF about Fri 4 Dec 10:"));
}

TEST_F(LabelTest, TwelveHoursFollowTheShop) {
  Shop shop = small_shop();
  shop.display.clock = Display::Clock::hours_12;
  bench = squeezeout::testing::Bench{at("2026-11-26T13:00:00Z"), shop};
  const GlueUpId id = clamped();
  ASSERT_TRUE(of(id));
  EXPECT_EQ(of(id)->time.substr(0, 2), "2:");
  EXPECT_EQ(of(id)->after, "pm");
}

TEST_F(LabelTest, WhatHasNoTimeHasNoLabel) {
  EXPECT_THAT(of(GlueUpId{99}).error().why, HasSubstr("no glue-up 99"));
  const GlueUpId id = clamped();
  bench.set(bench.glue_up(id).times.release_begin);
  ASSERT_TRUE(bench.press(ClampsOff{id, bench.now()}));
  EXPECT_EQ(of(id).error().why, "Its clamps are off already.");
  const GlueUpId gone = bench.reserve(kBinding, kAda);
  ASSERT_TRUE(bench.press(Cancel{gone}));
  EXPECT_EQ(of(gone).error().why, "It is over.");
}

// --- drawn ---

struct Ink {  // what is dark, in millimetres
  double left = 1e9, top = 1e9, right = -1, bottom = -1;
  double width() const { return right - left; }
  double height() const { return bottom - top; }
};

class Picture {
 public:
  explicit Picture(const std::string& file)
      : surface_(cairo_image_surface_create_from_png(file.c_str())) {
    EXPECT_EQ(cairo_surface_status(surface_), CAIRO_STATUS_SUCCESS);
  }
  ~Picture() { cairo_surface_destroy(surface_); }
  Picture(const Picture&) = delete;
  Picture& operator=(const Picture&) = delete;
  double width() const { return cairo_image_surface_get_width(surface_) / kDots; }
  double height() const { return cairo_image_surface_get_height(surface_) / kDots; }
  bool dark(int x, int y) const {
    const unsigned char* row =
        cairo_image_surface_get_data(surface_) + y * cairo_image_surface_get_stride(surface_);
    return row[4 * x] < 128;
  }
  // Of the part of the label between those, in millimetres.
  Ink ink(double left, double top, double right, double bottom) const {
    Ink out;
    const int x1 =
        std::min(static_cast<int>(right * kDots), cairo_image_surface_get_width(surface_));
    const int y1 =
        std::min(static_cast<int>(bottom * kDots), cairo_image_surface_get_height(surface_));
    for (int y = static_cast<int>(top * kDots); y < y1; ++y)
      for (int x = static_cast<int>(left * kDots); x < x1; ++x)
        if (dark(x, y)) {
          out.left = std::min(out.left, x / kDots),
          out.right = std::max(out.right, (x + 1) / kDots);
          out.top = std::min(out.top, y / kDots),
          out.bottom = std::max(out.bottom, (y + 1) / kDots);
        }
    return out;
  }
  Ink all() const { return ink(0, 0, width() + 1, height() + 1); }

 private:
  static constexpr double kDots = kDotsPerInch / 25.4;
  cairo_surface_t* surface_;
};

class DrawnLabel : public ::testing::Test {
 protected:
  DrawnLabel() { std::filesystem::create_directories(folder); }
  ~DrawnLabel() override { std::filesystem::remove_all(folder); }
  Picture picture(const Label& label) {
    const auto trouble = write_png(label, file("label.png"));
    EXPECT_FALSE(trouble) << trouble->why;
    return Picture{file("label.png")};
  }
  std::string file(const char* name) const { return (folder / name).string(); }
  std::filesystem::path folder =
      std::filesystem::temp_directory_path() / ("squeezeout-label-" + std::to_string(::getpid()));
  Label usual{{"OFF"}, "15:40", "", "No. 14 · bridge", "hide glue", "Ida"};
};

constexpr double kDot = 25.4 / kDotsPerInch;
constexpr double kHeadMm =
    kMarginMm + kNumeralMm + 0.5;  // the numerals, and what rounds below them

// "OFF" is lower than the numerals: the tops of the tallest ink are theirs.
TEST_F(DrawnLabel, TheNumeralsAreTwentyMillimetresHigh) {
  for (const char* time : {"11:11", "1:11", "14:17"}) {
    Label label = usual;
    label.time = time;
    const Ink ink = picture(label).ink(0, 0, 500, kHeadMm);
    EXPECT_NEAR(ink.height(), kNumeralMm, 2 * kDot) << time;
  }
  // Round figures reach over a little, as letters do, to look as high.
  const Ink round = picture(usual).ink(0, 0, 500, kHeadMm);
  EXPECT_GE(round.height(), kNumeralMm);
  EXPECT_LE(round.height(), kNumeralMm * 1.04);
}

TEST_F(DrawnLabel, FitsTheTapeAndKeepsItsMargins) {
  const Picture picture = this->picture(usual);
  EXPECT_NEAR(picture.height(), kTapeMm, kDot);
  EXPECT_NEAR(picture.width(), length_mm(usual), kDot);
  const Ink ink = picture.all();
  EXPECT_GE(ink.left, 2);
  EXPECT_GE(ink.top, 2);
  EXPECT_LE(ink.right, picture.width() - 2);
  EXPECT_LE(ink.bottom, kTapeMm - 1);
}

// The name, the glue and the builder are each there: leaving one out leaves less ink.
TEST_F(DrawnLabel, EveryPartIsOnIt) {
  const Ink whole = picture(usual).ink(0, kHeadMm, 500, kTapeMm);
  Label less = usual;
  less.builder = "";
  EXPECT_LT(picture(less).ink(0, 40, 500, kTapeMm).right,
            picture(usual).ink(0, 40, 500, kTapeMm).right);
  less = usual;
  less.name = "No. 14";
  EXPECT_LT(picture(less).ink(0, kHeadMm, 500, kTapeMm).right, whole.right);
}

TEST_F(DrawnLabel, DaysStandBesideTheNumeralsAndTheyDoNotTouch) {
  Label label = usual;
  label.beside = {"OFF", "about", "Fri", "4 Dec"};
  label.after = "pm";
  const Picture picture = this->picture(label);
  const Ink ink = picture.ink(0, 0, 500, kHeadMm);
  EXPECT_LE(ink.right, picture.width() - 2);
  // Between the column, the numerals and "pm" the paper is white for the gap's width.
  int stretches = 0;
  double white = 0;
  for (double x = kMarginMm; x < ink.right; x += kDot) {
    const bool blank = picture.ink(x, 0, x + 1.5 * kDot, kHeadMm).right < 0;
    white = blank ? white + kDot : 0;
    if (white >= 2.3 && white < 2.3 + kDot) ++stretches;
  }
  EXPECT_GE(stretches, 2);
}

TEST_F(DrawnLabel, LongNamesAreSetSmallerThenInLinesThenTheLabelGrows) {
  Label label = usual;
  label.name = "No. 14 · back braces and the upper transverse bar, left";
  EXPECT_DOUBLE_EQ(length_mm(label), length_mm(usual));
  for (int i = 0; i < 4; ++i) label.name += " · " + label.name.substr(0, 60);
  EXPECT_GT(length_mm(label), length_mm(usual));
  const Picture picture = this->picture(label);
  const Ink ink = picture.all();
  EXPECT_GE(ink.left, 2);
  EXPECT_LE(ink.right, picture.width() - 2);
  EXPECT_LE(ink.bottom, kTapeMm - 0.5);
}

TEST_F(DrawnLabel, NamesOfAnyWritingStayInside) {
  const char* names[] = {
      "גיטרה 14 · גשר",
      "غيتار ١٤ · جسر",
      "ギター14番・ブリッジ",
      "No. 14 \xE2\x80\xAE reversed",
      "broken \xFF\xC3( bytes",
      "two\nlines\tand a tab",
      "Unbreakableunbreakableunbreakableunbreakableunbreakableunbreakableunbreakable"
      "unbreakableunbreakableunbreakable",
      "<b>&amp;</b> %s {}",
      "🎸 14",
      ""};
  for (const char* name : names) {
    Label label = usual;
    label.name = label.builder = name;
    const Picture picture = this->picture(label);
    const Ink ink = picture.all();
    EXPECT_GE(ink.left, 1.5) << name;
    EXPECT_LE(ink.right, picture.width() - 1.5) << name;
    EXPECT_LE(ink.bottom, kTapeMm - 0.5) << name;
    EXPECT_NEAR(picture.ink(0, 0, 500, kHeadMm).height(), kNumeralMm, 0.8) << name;
  }
}

TEST_F(DrawnLabel, ThePdfHasTheLabelsSizeAndLettersInsteadOfDots) {
  ASSERT_FALSE(write_pdf(usual, file("label.pdf")));
  std::ifstream in(file("label.pdf"), std::ios::binary);
  const std::string pdf{std::istreambuf_iterator<char>(in), {}};
  EXPECT_EQ(pdf.substr(0, 5), "%PDF-");
  EXPECT_THAT(pdf, HasSubstr("/FontFile"));
  EXPECT_EQ(pdf.find("/Subtype /Image"), std::string::npos);
  const std::size_t at = pdf.find("/MediaBox [ 0 0 ");
  ASSERT_NE(at, std::string::npos);
  double width = 0, height = 0;
  ASSERT_EQ(std::sscanf(pdf.c_str() + at, "/MediaBox [ 0 0 %lf %lf", &width, &height), 2);
  EXPECT_NEAR(width * 25.4 / 72, length_mm(usual), 0.01);
  EXPECT_NEAR(height * 25.4 / 72, kTapeMm, 0.01);
}

TEST_F(DrawnLabel, AFileThatCannotBeWrittenIsTold) {
  const auto png = write_png(usual, file("no/such/folder.png"));
  ASSERT_TRUE(png);
  EXPECT_EQ(png->what, "The label was not written.");
  EXPECT_THAT(png->why, HasSubstr("folder.png"));
  EXPECT_FALSE(png->next.empty());
  EXPECT_TRUE(write_pdf(usual, file("no/such/folder.pdf")));
}

}  // namespace
}  // namespace squeezeout::label
