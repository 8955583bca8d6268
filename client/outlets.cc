#include "client/outlets.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>

#include "client/label/label_draw.h"
#include "client/words/say.h"

namespace squeezeout {
namespace {

namespace fs = std::filesystem;
using words::say;
using words::tr;

constexpr auto kLabelsKept = std::chrono::hours{24 * 7};

void forget_old(const fs::path& folder) {
  std::error_code error;
  const auto now = fs::file_time_type::clock::now();
  for (const auto& entry : fs::directory_iterator(folder, error)) {
    const auto written = entry.last_write_time(error);
    if (!error && now - written > kLabelsKept) fs::remove(entry.path(), error);
  }
}

// Written beside it first, so that a printer never reads half.
template <class Write>
std::optional<words::Told> written(const label::Label& label, const fs::path& file, Write write) {
  const std::string part = file.string() + ".part";
  if (auto trouble = write(label, part)) return trouble;
  std::error_code error;
  fs::rename(part, file, error);
  if (!error) return std::nullopt;
  return words::Told{tr("The label was not written."), file.string() + ": " + error.message(), ""};
}

platform::Command off(const std::string& lamp) { return {lamp, {}, {{"SQUEEZEOUT_ALARM", "off"}}}; }

std::string on_the_tape(const std::string& text) { return say("Write on the tape: {}", text); }

}  // namespace

std::string label_folder() {
  const char* cache = std::getenv("XDG_CACHE_HOME");
  if (cache != nullptr && *cache != '\0') return std::string(cache) + "/squeezeout/labels";
  const char* home = std::getenv("HOME");
  return std::string(home != nullptr ? home : ".") + "/.cache/squeezeout/labels";
}

Outlets::Outlets(std::string folder, std::function<void(platform::Samples)> play)
    : folder_(std::move(folder)), play_(std::move(play)) {}

Outlets::~Outlets() {
  if (perhaps_.empty()) return;
  lamps_.stop();
  for (const std::string& lamp : perhaps_) (void)lamps_.run(off(lamp));
  const auto until = std::chrono::steady_clock::now() + std::chrono::seconds{2};
  while (!lamps_.idle() && std::chrono::steady_clock::now() < until) {
    (void)lamps_.look();
    std::this_thread::sleep_for(std::chrono::milliseconds{10});
  }
}

std::optional<Message> Outlets::look(const alarm::Told& told, const words::Context& c,
                                     const Prefs& prefs, std::string_view typing) {
  take(prefs, typing);
  if (!play_) {
    speaker_ = std::make_unique<platform::Speaker>();
    play_ = [this](platform::Samples s) { speaker_->play(std::move(s)); };
  }
  if (prefs.sound == Prefs::Sound::on && told.sound != alarm::Sound::none)
    play_(told.sound == alarm::Sound::chime ? platform::chime() : platform::two_tones());
  switch_lamp(told, c);
  const auto failed_lamp = lamps_.look();
  if (lamps_.idle()) std::erase_if(perhaps_, [&](const std::string& lamp) { return lamp != lit_; });
  if (const auto& failed = failed_lamp; failed && failed->shell != refused_) {
    refused_ = failed->shell;
    return Message{.tone = Message::Tone::refused,
                   .what = tr("The lamp's command failed."),
                   .why = say("{}: {}. Set-up has it.", failed->shell, failed->why)};
  }
  if (const auto failed = printers_.look())
    return Message{.tone = Message::Tone::refused,
                   .what = say("The label was not printed. {}", on_the_tape(failed->about)),
                   .why = say("{}: {}. Set-up has it.", failed->shell, failed->why)};
  return std::nullopt;
}

void Outlets::take(const Prefs& prefs, std::string_view typing) {
  if (typing != "device.lamp") lamp_ = prefs.lamp;
  if (typing != "device.printer") printer_ = prefs.printer;
}

void Outlets::switch_lamp(const alarm::Told& told, const words::Context& c) {
  const bool on = alarm::ringing(told) && !lamp_.empty();
  if (!lit_.empty() && (!on || lit_ != lamp_) && lamps_.run(off(lit_))) lit_.clear();
  if (!on || !lit_.empty()) return;
  const GlueUp* g = c.floor.glue_up(told.alarms.front().glue_up);
  if (!lamps_.run({lamp_,
                   {},
                   {{"SQUEEZEOUT_ALARM", "P1"},
                    {"SQUEEZEOUT_GLUE_UP", g == nullptr ? "" : words::title(c, *g)}}}))
    return;
  lit_ = lamp_;
  if (std::find(perhaps_.begin(), perhaps_.end(), lit_) == perhaps_.end()) perhaps_.push_back(lit_);
}

void Outlets::try_sound() {
  if (play_) play_(platform::two_tones());
}

Message Outlets::print(const words::Context& c, GlueUpId glue_up, const Prefs& prefs,
                       std::string_view typing) {
  take(prefs, typing);
  const auto label = label::label_of(c.floor, glue_up, c.now);
  if (!label)
    return {.tone = Message::Tone::refused, .what = label.error().what, .why = label.error().why};
  const std::string to_write = label::to_write(*label);
  std::error_code error;
  fs::create_directories(folder_, error);
  forget_old(folder_);
  const fs::path pdf = fs::path(folder_) / fmt::format("label-{}.pdf", glue_up.value);
  auto trouble = written(*label, pdf, label::write_pdf);
  if (!trouble) trouble = written(*label, fs::path(pdf).replace_extension("png"), label::write_png);
  if (printer_.empty())
    return {.what = on_the_tape(to_write),
            .why = tr("No printer is set. Set-up has a place for its command.")};
  if (trouble)
    return {.tone = Message::Tone::refused,
            .what = say("The label was not printed. {}", on_the_tape(to_write)),
            .why = trouble->why};
  if (!printers_.run({printer_, {pdf.string()}, {}, to_write}))
    return {.tone = Message::Tone::refused,
            .what = say("The label was not printed. {}", on_the_tape(to_write)),
            .why = tr("The printer has not taken the labels before it.")};
  return {.what = tr("Label sent to the printer."), .why = to_write};
}

Loudspeaker Outlets::loudspeaker() const {
  if (!speaker_) return Loudspeaker::not_known;
  switch (speaker_->state()) {
    case platform::Speaker::State::not_tried:
      return Loudspeaker::not_known;
    case platform::Speaker::State::there:
      return Loudspeaker::there;
    case platform::Speaker::State::none:
      return Loudspeaker::none;
  }
  CHECK(!"a state outside the enumeration");
}

}  // namespace squeezeout
