// The tape label from the command line.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "tests/e2e/cli/command_line.h"

namespace squeezeout::test {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::StartsWith;

struct CliLabel : ::testing::Test {
  CliShop shop{{"--demo", "--clock", "2026-03-05T14:12:00Z"}};
  std::string head(const std::string& file) const {
    std::ifstream in(shop.folder() / file, std::ios::binary);
    std::string out(5, '\0');
    in.read(out.data(), 5);
    return out;
  }
};

TEST_F(CliLabel, SaysWhatToWriteAndDrawsIt) {
  const json reserved = shop.json({"reserve", "lining-bass", "--builder", "ida"});
  const std::string id = std::to_string(reserved["glue_up"].get<int>());
  EXPECT_THAT(shop.run({"label", id}).out, StartsWith("OFF about "));
  const std::string pdf = (shop.folder() / "l.pdf").string(),
                    png = (shop.folder() / "l.png").string();
  const json said = shop.json({"label", id, "--pdf", pdf, "--png", png});
  EXPECT_THAT(said["text"].get<std::string>(), HasSubstr("ining, bass side"));
  EXPECT_EQ(said["tape_mm"], 48);
  EXPECT_GE(said["length_mm"].get<double>(), 90);
  EXPECT_EQ(head("l.pdf"), "%PDF-");
  EXPECT_EQ(head("l.png").substr(1, 3), "PNG");
}

TEST_F(CliLabel, RefusesWithTheReason) {
  EXPECT_THAT(shop.json({"label", "9999"}, 1)["why"].get<std::string>(),
              HasSubstr("no glue-up 9999"));
  const json reserved = shop.json({"reserve", "lining-bass", "--builder", "ida"});
  const std::string id = std::to_string(reserved["glue_up"].get<int>());
  EXPECT_EQ(shop.run({"label", id, "--pdf", "/no/such/folder/l.pdf"}).exit_code, 2);
}

}  // namespace
}  // namespace squeezeout::test
