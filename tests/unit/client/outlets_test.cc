// Sound, lamp and printer, with real scripts that write what they were given.

#include "client/outlets.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <thread>

#include "tests/support/floor/small_shop.h"

namespace squeezeout {
namespace {

using namespace squeezeout::testing;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

const Instant kTen = at("2026-11-26T10:00:00Z");

class OutletsTest : public ::testing::Test {
 protected:
  OutletsTest() : bench(kTen) {
    std::filesystem::create_directories(folder);
    outlets.emplace((folder / "labels").string(),
                    [this](platform::Samples s) { played.push_back(std::move(s)); });
  }
  ~OutletsTest() override {
    outlets.reset();
    std::filesystem::remove_all(folder);
  }
  std::string script(const char* name, const std::string& text) {
    const std::filesystem::path path = folder / name;
    std::ofstream(path) << "#!/bin/sh\n" << text << "\n";
    std::filesystem::permissions(path, std::filesystem::perms::owner_all);
    return "'" + path.string() + "'";
  }
  std::string read(const char* name) const {
    std::ifstream in(folder / name);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  words::Context here() const { return {bench.floor(), bench.now()}; }
  std::optional<Message> look(const alarm::Told& told) {
    return outlets->look(told, here(), prefs);
  }
  // Looks until `done` or 5 s are over; the last message.
  template <class Done>
  std::optional<Message> until(const alarm::Told& told, Done done) {
    std::optional<Message> last;
    const auto end = std::chrono::steady_clock::now() + std::chrono::seconds{5};
    while (std::chrono::steady_clock::now() < end && !done(last)) {
      if (auto message = look(told)) last = message;
      std::this_thread::sleep_for(std::chrono::milliseconds{10});
    }
    return last;
  }
  GlueUpId running() {
    const GlueUpId id = bench.reserve(kBridge, kAda, {}, kBuild14);
    bench.set(bench.glue_up(id).times.stage_begin);
    EXPECT_TRUE(bench.press(Start{id}));
    return id;
  }
  alarm::Told at_risk(GlueUpId id, alarm::Sound sound = alarm::Sound::none) const {
    return {sound, {{id, alarm::Reason::wet, bench.now(), {}}}, 1};
  }

  std::filesystem::path folder =
      std::filesystem::temp_directory_path() / ("squeezeout outlets " + std::to_string(::getpid()));
  squeezeout::testing::Bench bench;
  Prefs prefs;
  std::vector<platform::Samples> played;
  std::optional<Outlets> outlets;
};

TEST_F(OutletsTest, PlaysWhatIsToldAndNothingWhenTheSoundIsOff) {
  const GlueUpId id = running();
  (void)look(at_risk(id, alarm::Sound::two_tones));
  (void)look(at_risk(id));
  (void)look({alarm::Sound::chime, {}, 0});
  EXPECT_THAT(played, ElementsAre(platform::two_tones(), platform::chime()));
  prefs.sound = Prefs::Sound::off;
  (void)look(at_risk(id, alarm::Sound::two_tones));
  EXPECT_EQ(played.size(), 2U);
  outlets->try_sound();
  EXPECT_EQ(played.size(), 3U) << "who tries it wants to hear it";
}

TEST_F(OutletsTest, TheLampIsSwitchedOnWithTheNameAndOffAgain) {
  const GlueUpId id = running();
  prefs.lamp = script(
      "lamp", "echo \"$SQUEEZEOUT_ALARM:$SQUEEZEOUT_GLUE_UP\" >> \"$(dirname \"$0\")/lamp.log\"");
  const auto logged = [&](const std::string& text) {
    return [this, text](const auto&) { return read("lamp.log") == text; };
  };
  until(at_risk(id), logged("P1:No. 14 · bridge\n"));
  EXPECT_EQ(read("lamp.log"), "P1:No. 14 · bridge\n");
  for (int i = 0; i < 20; ++i) (void)look(at_risk(id));
  until({}, logged("P1:No. 14 · bridge\noff:\n"));
  EXPECT_EQ(read("lamp.log"), "P1:No. 14 · bridge\noff:\n") << "once each";
}

TEST_F(OutletsTest, ClampsThatAreDueSwitchNoLamp) {
  const GlueUpId id = running();
  prefs.lamp = script("lamp", "touch \"$(dirname \"$0\")/lamp.log\"");
  for (int i = 0; i < 20; ++i) {
    EXPECT_FALSE(look({alarm::Sound::none, {{id, alarm::Reason::clamps, bench.now(), {}}}, 1}));
    std::this_thread::sleep_for(std::chrono::milliseconds{5});
  }
  EXPECT_FALSE(std::filesystem::exists(folder / "lamp.log"));
}

TEST_F(OutletsTest, TheLampGoesOffWhenTheProgramEnds) {
  const GlueUpId id = running();
  prefs.lamp = script("lamp", "echo \"$SQUEEZEOUT_ALARM\" >> \"$(dirname \"$0\")/lamp.log\"");
  until(at_risk(id), [&](const auto&) { return read("lamp.log") == "P1\n"; });
  outlets.reset();
  EXPECT_EQ(read("lamp.log"), "P1\noff\n");
}

TEST_F(OutletsTest, ALampsCommandThatStillRunsIsKilledAtTheEndAndTheLampGoesOff) {
  const GlueUpId id = running();
  prefs.lamp = script("lamp",
                      "echo \"$SQUEEZEOUT_ALARM\" >> \"$(dirname \"$0\")/lamp.log\"\n"
                      "if [ \"$SQUEEZEOUT_ALARM\" = P1 ]; then exec sleep 30; fi");
  until(at_risk(id), [&](const auto&) { return read("lamp.log") == "P1\n"; });
  (void)look({});  // its "off" waits behind it
  outlets.reset();
  EXPECT_EQ(read("lamp.log"), "P1\noff\n");
}

TEST_F(OutletsTest, HalfACommandIsNeverRun) {
  const GlueUpId id = running();
  const std::string whole =
      script("lamp", "echo \"$SQUEEZEOUT_ALARM\" >> \"$(dirname \"$0\")/lamp.log\"");
  const std::string half = "touch '" + (folder / "half").string() + "'";
  const auto typed = [&](int looks) {
    for (int i = 0; i < looks; ++i) {
      (void)outlets->look(at_risk(id), here(), prefs, "device.lamp");
      std::this_thread::sleep_for(std::chrono::milliseconds{10});
    }
  };
  prefs.lamp = half;
  typed(20);
  EXPECT_FALSE(std::filesystem::exists(folder / "half")) << "none was set before";
  prefs.lamp = whole;
  until(at_risk(id), [&](const auto&) { return read("lamp.log") == "P1\n"; });
  EXPECT_EQ(read("lamp.log"), "P1\n") << "it counts from leaving the field";
  prefs.lamp = half;
  typed(20);
  EXPECT_FALSE(std::filesystem::exists(folder / "half"));
  EXPECT_EQ(read("lamp.log"), "P1\n") << "the lamp stays as it is";
  prefs.lamp = whole;
  prefs.printer = half;
  EXPECT_THAT(outlets->print(here(), id, prefs, "device.printer").what,
              HasSubstr("Write on the tape"));
  typed(20);
  EXPECT_FALSE(std::filesystem::exists(folder / "half"));
}

TEST_F(OutletsTest, ALampThatFailsIsToldOnce) {
  const GlueUpId id = running();
  prefs.lamp = script("lamp", "echo 'no such lamp' >&2; exit 4");
  const auto some = [](const std::optional<Message>& m) { return m.has_value(); };
  const auto message = until(at_risk(id), some);
  ASSERT_TRUE(message);
  EXPECT_EQ(message->tone, Message::Tone::refused);
  EXPECT_EQ(message->what, "The lamp's command failed.");
  EXPECT_THAT(message->why, HasSubstr("exit code 4: no such lamp"));
  EXPECT_THAT(message->why, HasSubstr("Set-up"));
  for (int i = 0; i < 30; ++i) {
    EXPECT_FALSE(look(i % 2 == 0 ? alarm::Told{} : at_risk(id)));
    std::this_thread::sleep_for(std::chrono::milliseconds{10});
  }
}

TEST_F(OutletsTest, ThePrinterGetsThePdf) {
  const GlueUpId id = running();
  prefs.printer = script("print me",
                         "printf '%s|%s' \"$#\" \"$2\" > \"$(dirname \"$0\")/printed\"; "
                         "head -c 5 \"$2\" >> \"$(dirname \"$0\")/printed\"") +
                  " --tape";
  const Message message = outlets->print(here(), id, prefs);
  EXPECT_EQ(message.tone, Message::Tone::done);
  EXPECT_EQ(message.what, "Label sent to the printer.");
  const std::string pdf =
      (folder / "labels" / ("label-" + std::to_string(id.value) + ".pdf")).string();
  until({}, [&](const auto&) { return read("printed").size() > 5 + pdf.size(); });
  EXPECT_EQ(read("printed"), "2|" + pdf + "%PDF-");
  EXPECT_TRUE(std::filesystem::exists(std::filesystem::path(pdf).replace_extension("png")));
}

TEST_F(OutletsTest, WithNoPrinterItSaysWhatToWrite) {
  const GlueUpId id = running();
  const Message message = outlets->print(here(), id, prefs);
  EXPECT_EQ(message.tone, Message::Tone::done);
  EXPECT_THAT(message.what, ::testing::StartsWith("Write on the tape: OFF about 1"));
  EXPECT_THAT(message.what, HasSubstr("No. 14 · bridge"));
  EXPECT_THAT(message.why, HasSubstr("No printer is set"));
}

TEST_F(OutletsTest, APrinterThatFailsIsToldWithWhatToWrite) {
  const GlueUpId id = running();
  prefs.printer = script("print", "echo 'out of tape' >&2; exit 1");
  (void)outlets->print(here(), id, prefs);
  const auto message = until({}, [](const auto& m) { return m.has_value(); });
  ASSERT_TRUE(message);
  EXPECT_EQ(message->tone, Message::Tone::refused);
  EXPECT_THAT(message->what, HasSubstr("The label was not printed. Write on the tape: OFF"));
  EXPECT_THAT(message->why, HasSubstr("out of tape"));
}

TEST_F(OutletsTest, WhatToWriteIsOfTheLabelThatFailed) {
  const GlueUpId id = running();
  prefs.printer =
      script("print", "mkdir \"$(dirname \"$0\")/printed once\" 2>/dev/null && exit 1; exit 0");
  const std::string first = outlets->print(here(), id, prefs).why;
  bench.wait(Minutes{7});
  EXPECT_TRUE(bench.press(ClampsOn{id, bench.now()}));
  const std::string second = outlets->print(here(), id, prefs).why;
  ASSERT_NE(first, second);
  const auto message = until({}, [](const auto& m) { return m.has_value(); });
  ASSERT_TRUE(message);
  EXPECT_THAT(message->what, ::testing::EndsWith(first));
}

TEST_F(OutletsTest, AFolderThatCannotBeWrittenIsTold) {
  const GlueUpId id = running();
  std::ofstream(folder / "file") << "in the way";
  Outlets blocked{(folder / "file" / "labels").string(), [](platform::Samples) {}};
  prefs.printer = "true";
  const Message message = blocked.print(here(), id, prefs);
  EXPECT_EQ(message.tone, Message::Tone::refused);
  EXPECT_THAT(message.what, HasSubstr("Write on the tape: OFF"));
  EXPECT_THAT(message.why, HasSubstr("labels"));
}

TEST_F(OutletsTest, WhatHasNoTimeHasNoLabel) {
  const Message message = outlets->print(here(), GlueUpId{99}, prefs);
  EXPECT_EQ(message.tone, Message::Tone::refused);
  EXPECT_EQ(message.what, "No label.");
}

TEST_F(OutletsTest, LabelsOlderThanAWeekAreForgotten) {
  const std::filesystem::path old = folder / "labels" / "label-1234.pdf";
  std::filesystem::create_directories(old.parent_path());
  std::ofstream(old) << "old";
  std::filesystem::last_write_time(
      old, std::filesystem::file_time_type::clock::now() - std::chrono::hours{24 * 8});
  (void)outlets->print(here(), running(), prefs);
  EXPECT_FALSE(std::filesystem::exists(old));
}

TEST(LabelFolder, IsInThePersonsCache) {
  ::setenv("XDG_CACHE_HOME", "/some/cache", 1);
  EXPECT_EQ(label_folder(), "/some/cache/squeezeout/labels");
  ::unsetenv("XDG_CACHE_HOME");
  ::setenv("HOME", "/home/somebody", 1);
  EXPECT_EQ(label_folder(), "/home/somebody/.cache/squeezeout/labels");
}

}  // namespace
}  // namespace squeezeout
