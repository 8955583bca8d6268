// The shop's file, its gear table, its climate, and completion.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "tests/e2e/cli/command_line.h"

namespace squeezeout::test {
namespace {

using ::testing::HasSubstr;

struct CliShopFile : ::testing::Test {
  CliShop shop{{"--clock", "2026-03-02T09:00:00Z"}};
  void load() { ASSERT_EQ(shop.run({"load", small_shop_file()}).exit_code, 0); }
  int free_deep() {
    for (const auto& g : shop.json({"gear"}))
      if (g["gear"] == "deep-clamp") return g["free"];
    return -1;
  }
};

TEST_F(CliShopFile, WithoutAShopEachVerbSaysSo) {
  EXPECT_THAT(shop.run({"board"}).err, HasSubstr("No shop yet."));
  EXPECT_EQ(shop.run({"board"}).exit_code, 1);
  EXPECT_EQ(shop.run({"health"}).exit_code, 0);
}

TEST_F(CliShopFile, LoadAndExportAgree) {
  EXPECT_EQ(shop.json({"load", small_shop_file()})["said"], "Shop \"Small shop\" loaded.");
  const std::string exported = shop.run({"export"}).out;
  const auto again = shop.write("again.textproto", exported);
  ASSERT_EQ(shop.run({"load", again}).exit_code, 0);
  EXPECT_EQ(shop.run({"export"}).out, exported);
}

TEST_F(CliShopFile, MistakesNameFileAndLine) {
  const auto file = shop.write("bad.textproto",
                               "name: \"Bad\"\n"
                               "zone: \"UTC\"\n"
                               "recipe { key: \"bridge\" name: \"Bridge\" glue: \"hidee\" }\n");
  const Ran ran = shop.run({"load", file});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, HasSubstr(file.string() + ":3:"));
  EXPECT_THAT(ran.err, HasSubstr("hidee"));
  const auto json = shop.json({"load", file}, 2);
  EXPECT_EQ(json["refusal"]["mistakes"][0]["line"], 3);
  EXPECT_EQ(shop.run({"load", "no-such-file"}).exit_code, 2);
  EXPECT_THAT(shop.run({"load", "no-such-file"}).err, HasSubstr("No such file or directory"));
}

TEST_F(CliShopFile, GearBreaksAndMends) {
  load();
  EXPECT_EQ(free_deep(), 10);
  EXPECT_EQ(shop.run({"gear", "broken", "deep", "3", "--reason", "screw bent"}).out,
            "3 deep clamps out of use.\n");
  EXPECT_EQ(free_deep(), 7);
  EXPECT_THAT(shop.run({"snags"}).out, HasSubstr("3 deep clamps out of use (screw bent)"));
  EXPECT_EQ(shop.json({"gear", "mended", "deep-clamp", "9"}, 1)["refusal"]["kind"], "bad_count");
  EXPECT_EQ(shop.run({"gear", "mended", "deep-clamp", "3"}).exit_code, 0);
  EXPECT_EQ(shop.run({"gear", "stock", "deep-clamp", "14"}).out, "Stock: 14 deep clamps.\n");
  EXPECT_EQ(free_deep(), 14);
}

TEST_F(CliShopFile, GearTableGoesOutAndComesBack) {
  load();
  const std::string csv = shop.run({"gear", "export"}).out;
  EXPECT_THAT(csv, HasSubstr("deep-clamp,Deep clamp,"));
  const auto same = shop.write("same.csv", csv);
  EXPECT_EQ(shop.json({"gear", "check", same})["changed"].size(), 0U);
  const auto more = shop.write("more.csv",
                               "key,name,class,count,throat_mm\r\n"
                               "edge-clamp,\"Edge clamp, small\",clamp,6,40\r\n"
                               "deep-clamp,Deep clamp,clamp,12,200\r\n");
  const auto check = shop.json({"gear", "check", more});
  EXPECT_EQ(check["new"], nlohmann::json{"edge-clamp"});
  EXPECT_EQ(check["changed"], nlohmann::json{"deep-clamp"});
  EXPECT_EQ(check["kept"], nlohmann::json{"bar-clamp"});
  EXPECT_EQ(free_deep(), 10) << "a check changes nothing";
  ASSERT_EQ(shop.run({"gear", "import", more}).exit_code, 0);
  EXPECT_EQ(free_deep(), 12);
  EXPECT_EQ(shop.json({"gear"}).size(), 3U);
  const auto bad = shop.write("bad.csv", "key,name,class,count\r\nx,X,spanner,many\r\n");
  const Ran ran = shop.run({"gear", "check", bad});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, HasSubstr(bad.string() + ":2"));
}

TEST_F(CliShopFile, ClimateMakesAGlueTooCold) {
  load();
  EXPECT_EQ(shop.run({"climate", "read", "8.5", "40"}).out, "Climate 8.5 °C, 40 % taken.\n");
  const Ran cold = shop.run({"reserve", "bridge", "--builder", "ida"});
  EXPECT_EQ(cold.exit_code, 1);
  EXPECT_THAT(cold.err, HasSubstr("8.5 °C is too cold for fish glue: it needs 10 °C."));
}

TEST_F(CliShopFile, BashCompletesVerbsOptionsAndNames) {
  load();
  const std::string server = "127.0.0.1:" + std::to_string(shop.server().port());
  const auto completion = shop.write("completion.bash", shop.run({"completion", "bash"}).out);
  const auto squeezeout =
      (std::filesystem::read_symlink("/proc/self/exe").parent_path() / "squeezeout").string();
  const auto complete = [&](const std::string& words) {
    const auto script = shop.write(
        "try.bash", "source '" + completion.string() + "'\nexport SQUEEZEOUT_SERVER=" + server +
                        "\nCOMP_WORDS=('" + squeezeout + "' " + words +
                        ")\nCOMP_CWORD=$((${#COMP_WORDS[@]} - 1))\n_squeezeout\nprintf '%s ' "
                        "\"${COMPREPLY[@]}\"\n");
    const auto out = shop.folder() / "completed";
    EXPECT_EQ(std::system(("bash '" + script.string() + "' > '" + out.string() + "'").c_str()), 0);
    std::ostringstream text;
    text << std::ifstream(out).rdbuf();
    return text.str();
  };
  EXPECT_EQ(complete("res"), "reserve ");
  EXPECT_EQ(complete("reserve br"), "bridge ");
  EXPECT_EQ(complete("reserve bridge --builder ''"), "ida tom ");
  EXPECT_EQ(complete("board --by b"), "bench builder ");
  EXPECT_EQ(complete("--server localhost : 7733 --wait 2 cance"), "cancel ");
  EXPECT_EQ(complete("gear br"), "broken ");
  EXPECT_EQ(complete("gear broken de"), "deep-clamp ");
  EXPECT_THAT(complete("off 1 --"), HasSubstr("--anyway"));
  EXPECT_EQ(complete("climate fo"), "forecast ");
  EXPECT_THAT(complete("climate forecast --n"), HasSubstr("--night"));
  EXPECT_EQ(complete("lot add fi"), "fish ");
  EXPECT_EQ(complete("joint --wood-a sitk"), "sitka-spruce ");
  EXPECT_EQ(complete("mix f"), "fish ");
}

}  // namespace
}  // namespace squeezeout::test
