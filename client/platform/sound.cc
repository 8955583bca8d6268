#include "client/platform/sound.h"

#include <AL/al.h>
#include <AL/alc.h>
#include <AL/alext.h>

#include <chrono>
#include <cstdlib>
#include <memory>
#include <string_view>
#include <utility>

namespace squeezeout::platform {
namespace {

constexpr std::chrono::milliseconds kTail{150};     // what the device has taken and not yet played
constexpr std::chrono::milliseconds kHeld{10'000};  // after the last sound

// With no device OpenAL plays into the void, which sounds the same to a program.
bool nowhere(ALCdevice* device) {
  const ALCchar* name = alcGetString(device, ALC_ALL_DEVICES_SPECIFIER);
  return name != nullptr && std::string_view(name) == "No Output";
}

// An open device with one voice.
class Voice {
 public:
  static std::unique_ptr<Voice> open() {
    std::unique_ptr<Voice> voice{new Voice};
    voice->device_ = alcOpenDevice(nullptr);
    if (voice->device_ == nullptr || nowhere(voice->device_)) return nullptr;
    voice->context_ = alcCreateContext(voice->device_, nullptr);
    if (voice->context_ == nullptr || alcMakeContextCurrent(voice->context_) == ALC_FALSE)
      return nullptr;
    alGenSources(1, &voice->source_);
    alGenBuffers(1, &voice->buffer_);
    return alGetError() == AL_NO_ERROR ? std::move(voice) : nullptr;
  }
  ~Voice() {
    if (context_ != nullptr) {
      alDeleteSources(1, &source_);
      alDeleteBuffers(1, &buffer_);
      alcMakeContextCurrent(nullptr);
      alcDestroyContext(context_);
    }
    if (device_ != nullptr) alcCloseDevice(device_);
  }
  Voice(const Voice&) = delete;
  Voice& operator=(const Voice&) = delete;

  // False when the device is gone.
  bool play(const Samples& samples) {
    ALCint connected = ALC_TRUE;
    if (alcIsExtensionPresent(device_, "ALC_EXT_disconnect") == ALC_TRUE)
      alcGetIntegerv(device_, ALC_CONNECTED, 1, &connected);
    if (connected == ALC_FALSE) return false;
    alSourceStop(source_);
    alSourcei(source_, AL_BUFFER, 0);
    alBufferData(buffer_, AL_FORMAT_MONO16, samples.data(),
                 static_cast<ALsizei>(samples.size() * sizeof(samples[0])), kRate);
    alSourcei(source_, AL_BUFFER, static_cast<ALint>(buffer_));
    alSourcePlay(source_);
    return alGetError() == AL_NO_ERROR;
  }

 private:
  Voice() = default;
  ALCdevice* device_ = nullptr;
  ALCcontext* context_ = nullptr;
  ALuint source_ = 0, buffer_ = 0;
};

std::chrono::milliseconds length(const Samples& s) {
  return std::chrono::milliseconds{static_cast<std::int64_t>(s.size()) * 1000 / kRate};
}

}  // namespace

Speaker::Speaker() {
  ::setenv("ALSOFT_LOGLEVEL", "0", 0);  // that there is no device is told on the screen
  thread_ = std::thread([this] { run(); });
}

Speaker::~Speaker() {
  {
    const std::lock_guard lock(mutex_);
    leaving_ = true;
  }
  changed_.notify_all();
  thread_.join();
}

void Speaker::play(Samples samples) {
  {
    const std::lock_guard lock(mutex_);
    next_ = std::move(samples);
  }
  changed_.notify_all();
}

Speaker::State Speaker::state() const {
  const std::lock_guard lock(mutex_);
  return state_;
}

bool Speaker::wait_until_quiet(std::chrono::milliseconds at_most) {
  std::unique_lock lock(mutex_);
  return changed_.wait_for(lock, at_most, [&] { return !next_ && !busy_; });
}

void Speaker::run() {
  std::unique_lock lock(mutex_);
  std::unique_ptr<Voice> voice;
  const auto something = [&] { return leaving_ || next_.has_value(); };
  const auto unlocked = [&](auto work) {
    lock.unlock();
    auto made = work();
    lock.lock();
    return made;
  };
  const auto settle = [&](bool there) {
    state_ = there ? State::there : State::none;
    changed_.notify_all();
  };
  settle(unlocked([] { return Voice::open() != nullptr; }));
  while (!leaving_) {
    if (voice && !changed_.wait_for(lock, kHeld, something)) voice.reset();
    if (!voice) changed_.wait(lock, something);
    if (leaving_ || !next_) continue;
    const Samples samples = *std::exchange(next_, std::nullopt);
    busy_ = true;
    const bool playing = unlocked([&] {
      if (voice && voice->play(samples)) return true;
      voice.reset();  // closed before it is opened anew
      voice = Voice::open();
      return voice && voice->play(samples);
    });
    settle(playing);
    if (playing) changed_.wait_for(lock, length(samples) + kTail, something);
    busy_ = false;
    changed_.notify_all();
  }
}

}  // namespace squeezeout::platform
