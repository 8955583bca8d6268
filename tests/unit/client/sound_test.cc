// The sounds as numbers, and as what OpenAL makes of them.

#include "client/platform/sound.h"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <chrono>
#include <cmath>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <numbers>
#include <span>
#include <thread>

#include "client/platform/tones.h"

namespace squeezeout::platform {
namespace {

using std::chrono::milliseconds;

// How much of the pitch there is, by Goertzel's recurrence: the amplitude of a sine, of full scale 1.
double amplitude(std::span<const double> samples, double hertz, int rate) {
  const double w = 2 * std::numbers::pi * hertz / rate;
  double before = 0, last = 0;
  for (const double x : samples) {
    const double next = x + 2 * std::cos(w) * last - before;
    before = last, last = next;
  }
  const double power = before * before + last * last - 2 * std::cos(w) * before * last;
  return 2 * std::sqrt(std::max(0.0, power)) / static_cast<double>(samples.size());
}

std::vector<double> scaled(const Samples& samples) {
  std::vector<double> out;
  for (const std::int16_t s : samples) out.push_back(s / 32767.0);
  return out;
}

std::span<const double> part(const std::vector<double>& all, double from, double to, int rate) {
  const auto begin = static_cast<std::size_t>(from * rate),
             end = static_cast<std::size_t>(to * rate);
  return std::span(all).subspan(begin, std::min(end, all.size()) - begin);
}

int loudest(const Samples& samples) {
  int most = 0;
  for (const std::int16_t s : samples) most = std::max(most, std::abs(int{s}));
  return most;
}

TEST(Tones, TheTwoTonesAreTheTwoPitchesOneAfterTheOther) {
  const std::vector<double> all = scaled(two_tones());
  ASSERT_NEAR(static_cast<double>(all.size()) / kRate, 0.7, 0.001);
  const auto first = part(all, 0.05, 0.30, kRate), second = part(all, 0.40, 0.65, kRate);
  EXPECT_NEAR(amplitude(first, kHigh, kRate), 0.8, 0.02);
  EXPECT_NEAR(amplitude(second, kLow, kRate), 0.8, 0.02);
  EXPECT_LT(amplitude(first, kLow, kRate), 0.02);
  EXPECT_LT(amplitude(second, kHigh, kRate), 0.02);
}

TEST(Tones, NothingClips) {
  EXPECT_LE(loudest(two_tones()), 32767 * 0.8 + 1);
  EXPECT_GT(loudest(two_tones()), 32767 * 0.75);
  EXPECT_LE(loudest(chime()), 32767 * 0.6 + 1);
  EXPECT_LE(loudest(samples_of({{500, 0.1, 7}})), 32767);
}

TEST(Tones, NothingClicks) {
  for (const Samples& samples : {two_tones(), chime()}) {
    ASSERT_FALSE(samples.empty());
    EXPECT_EQ(samples.front(), 0);
    EXPECT_LT(std::abs(int{samples.back()}), 200);
    // No step between neighbours is larger than the steepest of the sines.
    const double steepest = 2 * std::numbers::pi * kHigh / kRate * 32767 * 0.8 * 1.05;
    for (std::size_t i = 1; i < samples.size(); ++i)
      ASSERT_LE(std::abs(samples[i] - samples[i - 1]), steepest) << i;
  }
}

TEST(Tones, TheChimeDiesAwayAndIsSofter) {
  const std::vector<double> all = scaled(chime());
  const double early = amplitude(part(all, 0.02, 0.12, kRate), kBell, kRate);
  const double late = amplitude(part(all, 0.8, 0.9, kRate), kBell, kRate);
  EXPECT_GT(early, 0.35);
  EXPECT_LT(late, early / 8);
  EXPECT_LT(loudest(chime()), loudest(two_tones()));
}

TEST(Tones, NoTonesAreNoSamples) { EXPECT_TRUE(samples_of({}).empty()); }

// --- through OpenAL ---

struct Wave {
  int channels = 0, rate = 0, bits = 0;
  std::vector<double> left;
};

template <class T>
T number(const std::string& bytes, std::size_t at) {
  T out{};
  std::memcpy(&out, bytes.data() + at, sizeof out);
  return out;
}

// A RIFF file of 16-bit integers or 32-bit floats.
Wave read_wave(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(in), {}};
  Wave out;
  for (std::size_t at = 12; at + 8 <= bytes.size();) {
    const std::string name = bytes.substr(at, 4);
    std::size_t size = number<std::uint32_t>(bytes, at + 4);
    at += 8;
    size = std::min(size, bytes.size() - at);
    if (name == "fmt ") {
      out.channels = number<std::uint16_t>(bytes, at + 2);
      out.rate = static_cast<int>(number<std::uint32_t>(bytes, at + 4));
      out.bits = number<std::uint16_t>(bytes, at + 14);
    } else if (name == "data" && out.bits > 0) {
      const std::size_t one = static_cast<std::size_t>(out.bits) / 8;
      const std::size_t frame = one * static_cast<std::size_t>(out.channels);
      for (std::size_t i = 0; i + frame <= size; i += frame)
        out.left.push_back(out.bits == 16 ? number<std::int16_t>(bytes, at + i) / 32768.0
                                          : number<float>(bytes, at + i));
    }
    at += size + size % 2;
  }
  return out;
}

// OpenAL reads its settings once a program, when the first device is opened; so each case has a program of its own.
class OpenAl : public ::testing::Test {
 protected:
  OpenAl() {
    std::filesystem::create_directories(folder);
    std::ofstream(folder / "alsoft.conf")
        << "[general]\nfrequency = 44100\nchannels = stereo\n"
        << "[wave]\nfile = " << (folder / "heard.wav").string() << "\n";
    ::setenv("ALSOFT_CONF", (folder / "alsoft.conf").c_str(), 1);
  }
  ~OpenAl() override { std::filesystem::remove_all(folder); }
  std::filesystem::path folder =
      std::filesystem::temp_directory_path() / ("squeezeout-sound-" + std::to_string(::getpid()));
};
using OpenAlDeathTest = OpenAl;

// The exit code of the program: which of its steps failed.
int play_into_a_file(const std::filesystem::path& file) {
  ::setenv("ALSOFT_DRIVERS", "wave", 1);
  {
    Speaker speaker;
    const auto before = std::chrono::steady_clock::now();
    speaker.play(two_tones());
    if (std::chrono::steady_clock::now() - before > milliseconds{20}) return 2;
    if (!speaker.wait_until_quiet(milliseconds{10'000})) return 3;
    if (speaker.state() != Speaker::State::there) return 4;
  }
  const Wave wave = read_wave(file);
  if (wave.rate != kRate || wave.left.size() < static_cast<std::size_t>(kRate / 2)) return 5;
  // Where it begins.
  std::size_t begin = 0;
  while (begin < wave.left.size() && std::abs(wave.left[begin]) < 0.01) ++begin;
  const double at = static_cast<double>(begin) / kRate;
  if (static_cast<double>(wave.left.size() - begin) / kRate < 0.68) return 6;
  const auto first = part(wave.left, at + 0.05, at + 0.30, kRate);
  const auto second = part(wave.left, at + 0.40, at + 0.65, kRate);
  std::fprintf(stderr, "heard %.0f Hz %.3f then %.0f Hz %.3f\n", kHigh,
               amplitude(first, kHigh, kRate), kLow, amplitude(second, kLow, kRate));
  if (amplitude(first, kHigh, kRate) < 0.2 || amplitude(first, kLow, kRate) > 0.02) return 7;
  if (amplitude(second, kLow, kRate) < 0.2 || amplitude(second, kHigh, kRate) > 0.02) return 8;
  return 0;
}

TEST_F(OpenAlDeathTest, WhatItPlaysAreTheTwoTones) {
  GTEST_FLAG_SET(death_test_style, "threadsafe");
  const auto file = folder / "heard.wav";
  EXPECT_EXIT(std::exit(play_into_a_file(file)), ::testing::ExitedWithCode(0), "heard");
}

int play_nowhere() {
  ::setenv("ALSOFT_DRIVERS", "null", 1);
  Speaker speaker;
  const auto before = std::chrono::steady_clock::now();
  speaker.play(two_tones());
  if (!speaker.wait_until_quiet(milliseconds{5'000})) return 2;
  if (std::chrono::steady_clock::now() - before > milliseconds{3'000}) return 3;
  return speaker.state() == Speaker::State::none ? 0 : 4;
}

TEST_F(OpenAlDeathTest, WithNoDeviceItIsSilentAndSaysSo) {
  GTEST_FLAG_SET(death_test_style, "threadsafe");
  EXPECT_EXIT(std::exit(play_nowhere()), ::testing::ExitedWithCode(0), "");
}

// A sound system that opens no device and says nothing: the file it writes is a pipe that nobody reads.
int leave_one_that_hangs() {
  ::setenv("ALSOFT_DRIVERS", "wave", 1);
  const auto before = std::chrono::steady_clock::now();
  {
    Speaker speaker;
    speaker.play(two_tones());
    if (speaker.wait_until_quiet(milliseconds{300})) return 2;
    if (speaker.state() != Speaker::State::not_tried) return 3;
  }
  const auto took = std::chrono::steady_clock::now() - before;
  if (took < Speaker::kLeave) return 4;
  return took < Speaker::kLeave + milliseconds{2'000} ? 0 : 5;
}

TEST_F(OpenAlDeathTest, ASoundSystemThatHangsHoldsUpNoEnd) {
  GTEST_FLAG_SET(death_test_style, "threadsafe");
  ASSERT_EQ(::mkfifo((folder / "heard.wav").c_str(), 0600), 0);
  EXPECT_EXIT(std::exit(leave_one_that_hangs()), ::testing::ExitedWithCode(0), "");
}

}  // namespace
}  // namespace squeezeout::platform
