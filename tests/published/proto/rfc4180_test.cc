// RFC 4180, "Common Format and MIME Type for Comma-Separated Values (CSV) Files", October 2005, section 2: its seven rules, each
// with the examples that stand there.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "proto/shop_file.h"

namespace squeezeout {
namespace {

using Rows = std::vector<std::vector<std::string>>;

Rows rows(std::string_view text) {
  const auto read = csv_rows("rfc4180", text);
  if (!read) ADD_FAILURE() << to_text(read.error());
  return read ? *read : Rows{};
}

FileMistake mistake(std::string_view text) {
  const auto read = csv_rows("t.csv", text);
  return read ? FileMistake{} : read.error();
}

// 2.1  Each record is located on a separate line, delimited by a line break (CRLF).
TEST(Rfc4180, Rule1LinesEndInCrLf) {
  EXPECT_EQ(rows("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"),
            (Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(csv_row({"aaa", "bbb", "ccc"}), "aaa,bbb,ccc\r\n");
}

// 2.2  The last record in the file may or may not have an ending line break.
TEST(Rfc4180, Rule2TheLastLineBreakMayBeLeftOut) {
  EXPECT_EQ(rows("aaa,bbb,ccc\r\nzzz,yyy,xxx"),
            (Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
}

// 2.3  There may be an optional header line with the same format as normal record lines.
TEST(Rfc4180, Rule3AHeaderIsARow) {
  EXPECT_EQ(rows("field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"),
            (Rows{{"field_name", "field_name", "field_name"},
                  {"aaa", "bbb", "ccc"},
                  {"zzz", "yyy", "xxx"}}));
}

// 2.4  Each line should contain the same number of fields. Spaces are part of a field. The last field is not followed by a comma.
TEST(Rfc4180, Rule4AsManyFieldsInEachLineAndSpacesCount) {
  EXPECT_EQ(rows("aaa,bbb,ccc"), (Rows{{"aaa", "bbb", "ccc"}}));
  EXPECT_EQ(rows(" aaa , bbb,"), (Rows{{" aaa ", " bbb", ""}}));
  const FileMistake ragged = mistake("a,b\r\nc,d\r\ne\r\n");
  EXPECT_EQ(ragged.line, 3);
  EXPECT_EQ(ragged.what, "the row has 1 cells, the first row 2");
}

// 2.5  Each field may or may not be enclosed in double quotes; without them, double quotes may not appear inside.
TEST(Rfc4180, Rule5FieldsMayBeQuoted) {
  EXPECT_EQ(rows("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx"),
            (Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  const FileMistake stray = mistake("a,b\r\nc,d\"e\r\n");
  EXPECT_EQ(stray.line, 2);
  EXPECT_EQ(stray.what, "a quote stands inside a cell without quotes");
}

// 2.6  Fields containing line breaks (CRLF), double quotes, and commas should be enclosed in double-quotes.
TEST(Rfc4180, Rule6LineBreaksAndCommasAreQuoted) {
  EXPECT_EQ(rows("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx"),
            (Rows{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(csv_row({"aaa", "b\r\nbb", "c,c"}), "aaa,\"b\r\nbb\",\"c,c\"\r\n");
}

// 2.7  A double-quote appearing inside a field must be escaped by preceding it with another double quote.
TEST(Rfc4180, Rule7QuotesAreDoubled) {
  EXPECT_EQ(rows("\"aaa\",\"b\"\"bb\",\"ccc\""), (Rows{{"aaa", "b\"bb", "ccc"}}));
  EXPECT_EQ(csv_row({"aaa", "b\"bb", "ccc"}), "aaa,\"b\"\"bb\",ccc\r\n");
  EXPECT_EQ(mistake("a\r\n\"b\"c\r\n").line, 2);
  const FileMistake open = mistake("a\r\n\"b\r\nc\r\n");
  EXPECT_EQ(open.line, 2) << "where the quote was opened";
  EXPECT_EQ(open.what, "a quote is not closed");
}

// Beyond the letter of it: what other programs write.
TEST(Rfc4180, ABareLineFeedAndTheMarkOfUtf8AreRead) {
  EXPECT_EQ(rows("\xEF\xBB\xBF"
                 "aaa,bbb\nzzz,yyy\n"),
            (Rows{{"aaa", "bbb"}, {"zzz", "yyy"}}));
  EXPECT_EQ(mistake("a,b\rc,d").what, "stands where a comma or the end of the row belongs");
}

TEST(Rfc4180, WhatIsWrittenIsReadBack) {
  const Rows table = {{"", "a", "\""}, {",", "\r\n", "\n"}, {" x ", "\"\"", "ü"}};
  std::string text;
  for (const auto& row : table) text += csv_row(row);
  EXPECT_EQ(rows(text), table);
  EXPECT_EQ(rows(""), Rows{});
}

}  // namespace
}  // namespace squeezeout
