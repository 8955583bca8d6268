// The examples of proto/PROTOCOL.md, which were made without our codec: it writes the same bytes, and reads them.
#include <gtest/gtest.h>

#include <fstream>

#include "tests/support/floor/small_shop.h"
#include "tests/unit/proto/same.h"

namespace squeezeout {
namespace {

// The indented lines below "## Examples", as bytes.
std::vector<std::string> examples() {
  std::ifstream page("proto/PROTOCOL.md");
  EXPECT_TRUE(page) << "run from the top of the checkout";
  std::vector<std::string> all;
  bool below = false;
  for (std::string line; std::getline(page, line);) {
    below = below || line == "## Examples";
    if (!below || !line.starts_with("    ")) continue;
    std::string bytes;
    for (std::size_t i = 4; i + 1 < line.size(); i += 2)
      bytes += static_cast<char>(std::stoi(line.substr(i, 2), nullptr, 16));
    all.push_back(bytes);
  }
  return all;
}

CommandId counted_from(std::uint8_t first, std::uint8_t last) {
  CommandId id;
  for (std::size_t i = 0; i < id.bytes.size(); ++i)
    id.bytes[i] = static_cast<std::uint8_t>(first + i);
  id.bytes.back() = last;
  return id;
}

TEST(ProtocolExamples, AreWhatTheCodecWritesAndReads) {
  const CommandId reserve = counted_from(0x10, 0x1f), clamps_on = counted_from(0x10, 0x20);
  const std::vector<std::string> written = {
      encode(ClientFrame{Hello{3, {counted_from(0, 0x0f).bytes}, {}, 0}}),
      encode(ClientFrame{Asked{
          reserve,
          Reserve{
              {7}, {2}, 3, {1}, {1}, {}, testing::at("2026-11-26T10:15:00Z"), {}, {}, {}, {}}}}),
      encode(ServerFrame{Answer{reserve, 41, {}, {12}}}),
      encode(ClientFrame{Asked{clamps_on, ClampsOn{{12}, testing::at("2026-11-26T10:29:00Z")}}}),
      encode(ServerFrame{Answer{clamps_on, 44, WrongProgress{{12}, Progress::reserved}, {}}}),
      encode(ServerFrame{Beat{44, 1'795'688'941'000}})};
  const std::vector<std::string> told = examples();
  EXPECT_EQ(told, written);
  for (const std::size_t i : {0u, 1u, 3u}) EXPECT_TRUE(decode_client_frame(told.at(i))) << i;
  for (const std::size_t i : {2u, 4u, 5u}) EXPECT_TRUE(decode_server_frame(told.at(i))) << i;
}

}  // namespace
}  // namespace squeezeout
