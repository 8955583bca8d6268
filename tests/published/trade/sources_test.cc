// Not a source's figures, but that each formula has one: SOURCES.md, formula.cc, the headers of common/trade and the limits of
// common/craft against each other.
// Reads the checkout: tests run with its top as their working folder.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "common/trade/formula.h"

namespace squeezeout {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::IsEmpty;

using Texts = std::map<std::string, std::string>;  // name or anchor -> text
using Problems = std::vector<std::string>;

std::string read(const fs::path& path) {
  std::ifstream in{path};
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

std::vector<std::string> lines(const std::string& text) {
  std::vector<std::string> out;
  std::istringstream in{text};
  for (std::string line; std::getline(in, line);) out.push_back(line);
  return out;
}

// "## anchor" and what stands below it.
Texts entries(const std::string& page) {
  Texts out;
  std::string* entry = nullptr;
  for (const std::string& line : lines(page)) {
    if (line.starts_with("## ")) {
      entry = &out[line.substr(3)];
    } else if (entry) {
      *entry += line + "\n";
    }
  }
  return out;
}

// "tests/unit/trade/cure_test.cc", of what stands between backticks.
std::set<std::string> tests_named(const std::string& entry) {
  std::set<std::string> out;
  for (std::size_t at = 0; (at = entry.find("`tests/", at)) != std::string::npos;) {
    const std::size_t end = entry.find('`', at + 1);
    out.insert(entry.substr(at + 1, end - at - 1));
    at = end;
  }
  return out;
}

// "Published", as the entry's first word or two.
bool begins_with_mark(const std::string& entry, Mark mark) {
  std::string word{to_string(mark)};
  word[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(word[0])));
  return entry.starts_with(word) && entry.size() > word.size() &&
         std::string_view{".:,"}.find(entry[word.size()]) != std::string_view::npos;
}

Problems problems_of_page(const Texts& page, const std::vector<Formula>& formulas) {
  Problems out;
  std::set<std::string> known;
  for (const Formula& f : formulas) {
    const std::string anchor{f.anchor};
    known.insert(anchor);
    const auto found = page.find(anchor);
    if (found == page.end()) {
      out.push_back(anchor + ": no entry");
      continue;
    }
    const std::string& entry = found->second;
    if (!begins_with_mark(entry, f.mark))
      out.push_back(anchor + ": is " + std::string{to_string(f.mark)} + ", its entry says else");
    const auto tests = tests_named(entry);
    for (const std::string& test : tests)
      if (!fs::exists(test)) out.push_back(anchor + ": there is no " + test);
    const auto published = [](const std::string& t) { return t.starts_with("tests/published/"); };
    if (f.mark == Mark::published && std::none_of(tests.begin(), tests.end(), published))
      out.push_back(anchor + ": published, and checked in no tests/published");
    if (f.mark == Mark::our_model && tests.empty()) out.push_back(anchor + ": checked nowhere");
  }
  for (const auto& [anchor, text] : page)
    if (!known.contains(anchor)) out.push_back(anchor + ": an entry without a formula");
  return out;
}

// "emc", "movement" of "Source   trade/SOURCES.md#emc, #movement".
std::set<std::string> anchors_named(const std::string& header) {
  constexpr std::string_view kLetters = "abcdefghijklmnopqrstuvwxyz_";
  std::set<std::string> out;
  for (const std::string& line : lines(header)) {
    const std::size_t comment = line.find("//");
    if (comment == std::string::npos) continue;
    for (std::size_t at = comment; (at = line.find('#', at)) != std::string::npos;) {
      const std::size_t end = std::min(line.find_first_not_of(kLetters, at + 1), line.size());
      out.insert(line.substr(at + 1, end - at - 1));
      at = end;
    }
  }
  return out;
}

// Headers that know nothing of the craft.
const std::set<std::string> kPlain{"range.h", "whole.h"};

Problems problems_of_headers(const Texts& headers, const Texts& page) {
  Problems out;
  for (const auto& [name, text] : headers) {
    const auto all = lines(text);
    const bool computes = std::any_of(all.begin(), all.end(), [](const std::string& line) {
      return line.starts_with("[[nodiscard]]");  // members are indented
    });
    const auto anchors = anchors_named(text);
    if (computes && !kPlain.contains(name) &&
        (anchors.empty() || text.find("SOURCES.md#") == std::string::npos)) {
      out.push_back(name + ": names no source");
    }
    for (const std::string& anchor : anchors)
      if (!page.contains(anchor)) out.push_back(name + ": #" + anchor + " has no entry");
  }
  return out;
}

// "kFloorNear", of each number declared at the left edge: "constexpr Percent kDriest{40}, kDampest{55};"
std::set<std::string> constants_of(const std::string& text) {
  static const std::regex kName{R"(\b(k[A-Z]\w*)\s*(=|\{))"};
  std::set<std::string> out;
  for (const std::string& line : lines(text)) {
    if (!line.starts_with("constexpr ") && !line.starts_with("inline constexpr ")) continue;
    if (line.find("std::array") != std::string::npos) continue;
    for (std::sregex_iterator it{line.begin(), line.end(), kName}, end; it != end; ++it)
      out.insert((*it)[1].str());
  }
  return out;
}

Problems problems_of_limits(const Texts& files, const std::string& page) {
  Problems out;
  for (const auto& [name, text] : files)
    for (const std::string& constant : constants_of(text))
      if (page.find("`" + constant + "`") == std::string::npos)
        out.push_back(name + ": " + constant + " has no word");
  return out;
}

// Headers whose constants say how many values an enumeration has.
const std::set<std::string> kCounts{"answer.h", "fitness.h", "joint.h"};

std::vector<Formula> all_formulas() {
  std::vector<Formula> out;
  for (int i = 0; i < kFormulas; ++i) out.push_back(formula(static_cast<FormulaId>(i)));
  return out;
}

TEST(Sources, EachFormulaHasItsEntry) {
  const Texts page = entries(read("common/trade/SOURCES.md"));
  ASSERT_FALSE(page.empty()) << "run from the top of the checkout";
  EXPECT_THAT(problems_of_page(page, all_formulas()), IsEmpty());
}

TEST(Sources, EachHeaderNamesItsSources) {
  Texts headers;
  for (const auto& file : fs::directory_iterator{"common/trade"})
    if (file.path().extension() == ".h") headers[file.path().filename()] = read(file.path());
  ASSERT_GE(headers.size(), 10U);
  EXPECT_THAT(problems_of_headers(headers, entries(read("common/trade/SOURCES.md"))), IsEmpty());
  for (const std::string& name : kPlain) EXPECT_TRUE(headers.contains(name)) << name;
}

TEST(Sources, EachLimitOfTheCraftHasItsWord) {
  Texts files;
  for (const auto& file : fs::directory_iterator{"common/craft"}) {
    const std::string name = file.path().filename();
    if (!kCounts.contains(name)) files[name] = read(file.path());
  }
  ASSERT_TRUE(files.contains("cautions.cc") && files.contains("fitness.cc"));
  EXPECT_THAT(constants_of(files["cautions.cc"]), testing::Contains("kBracingDampest"));
  EXPECT_THAT(problems_of_limits(files, read("common/trade/SOURCES.md")), IsEmpty());
}

TEST(Sources, ALimitWithoutAWordIsFound) {
  const std::string planted =
      "constexpr Percent kDriest{40}, kDampest{55};\ninline constexpr Seconds kLeast = "
      "Minutes{2};\n"
      "  constexpr int kInside = 3;\nconstexpr std::array kOrder{1, 2};\nint f() { return kUsed; "
      "}\n";
  EXPECT_THAT(constants_of(planted),
              testing::UnorderedElementsAre("kDriest", "kDampest", "kLeast"));
  EXPECT_THAT(
      problems_of_limits({{"a.cc", planted}}, "Practice: `kDriest` and `kLeast`; kDampest."),
      ElementsAre("a.cc: kDampest has no word"));
  EXPECT_THAT(problems_of_limits({{"a.cc", planted}}, "`kDriest`, `kLeast`, `kDampest`"),
              IsEmpty());
}

// That what stands above them can fail.
TEST(Sources, WhatIsMissingIsFound) {
  const Formula emc{.anchor = "emc", .mark = Mark::published};
  const Formula lag{.anchor = "wood_lag", .mark = Mark::our_model};
  const std::string good =
      "# Sources\n\n## emc\nPublished. A book.\nChecks: `tests/published/trade/emc_test.cc`: 3.\n\n"
      "## wood_lag\nOur model: a guess.\nChecks: `tests/unit/trade/weather_test.cc`.\n";
  EXPECT_THAT(problems_of_page(entries(good), {emc, lag}), IsEmpty());
  EXPECT_THAT(problems_of_page(entries(good), {emc}),
              ElementsAre("wood_lag: an entry without a formula"));
  EXPECT_THAT(problems_of_page({}, {emc}), ElementsAre("emc: no entry"));
  EXPECT_THAT(
      problems_of_page(entries("## emc\nOur model.\n`tests/published/trade/emc_test.cc`\n"), {emc}),
      ElementsAre("emc: is published, its entry says else"));
  EXPECT_THAT(problems_of_page(entries("## emc\nPublished. Somewhere.\n"), {emc}),
              ElementsAre("emc: published, and checked in no tests/published"));
  EXPECT_THAT(problems_of_page(entries("## wood_lag\nOur model.\n"), {lag}),
              ElementsAre("wood_lag: checked nowhere"));
  EXPECT_THAT(problems_of_page(entries("## wood_lag\nOur model.\n`tests/none_test.cc`\n"), {lag}),
              ElementsAre("wood_lag: there is no tests/none_test.cc"));

  const Texts page = entries(good);
  EXPECT_THAT(problems_of_headers({{"a.h",
                                    "// Source trade/SOURCES.md#emc, #wood_lag\n"
                                    "[[nodiscard]] int f();\n"}},
                                  page),
              IsEmpty());
  EXPECT_THAT(problems_of_headers({{"a.h", "// A figure.\n[[nodiscard]] int f();\n"}}, page),
              ElementsAre("a.h: names no source"));
  EXPECT_THAT(problems_of_headers({{"a.h",
                                    "// Source trade/SOURCES.md#emc, #gone\n"
                                    "[[nodiscard]] int f();\n"}},
                                  page),
              ElementsAre("a.h: #gone has no entry"));
  EXPECT_THAT(
      problems_of_headers({{"a.h", "struct A {\n  [[nodiscard]] int f() const;\n};\n"}}, page),
      IsEmpty());
}

}  // namespace
}  // namespace squeezeout
