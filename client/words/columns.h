#pragma once
// Text in columns, for people: the day sheet and the command line.
//   Units    a width is a number of code points; what is shown is Latin, Greek or Cyrillic text, where each takes one cell

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace squeezeout::words {

[[nodiscard]] std::size_t width(std::string_view text);
[[nodiscard]] std::string cut(std::string_view text,
                              std::size_t most);  // "No. 14 · bri…" when longer
[[nodiscard]] std::string left(std::string_view text,
                               std::size_t columns);  // cut, or filled up with spaces behind
[[nodiscard]] std::string right(std::string_view text,
                                std::size_t columns);  // the same, spaces in front

enum class Align { left, right };
struct Column {
  std::string head;
  Align align = Align::left;
  std::size_t most = 40;  // wider cells are cut
};
// A table, columns as wide as their widest cell and two spaces apart; no spaces at line ends. No rows: only the heads.
[[nodiscard]] std::string table(const std::vector<Column>& columns,
                                const std::vector<std::vector<std::string>>& rows);

}  // namespace squeezeout::words
