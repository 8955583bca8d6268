#include "client/platform/sound.h"

#include <AL/al.h>
#include <AL/alc.h>
#include <AL/alext.h>

#include <condition_variable>
#include <cstdlib>
#include <mutex>
#include <optional>
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

struct Speaker::Shared {
  std::mutex mutex;
  std::condition_variable changed;
  std::optional<Samples> next;
  State state = State::not_tried;
  bool busy = false, leaving = false, left = false;
};

Speaker::Speaker() : shared_(std::make_shared<Shared>()) {
  ::setenv("ALSOFT_LOGLEVEL", "0", 0);  // that there is no device is told on the screen
  thread_ = std::thread([shared = shared_] { run(*shared); });
}

Speaker::~Speaker() {
  std::unique_lock lock(shared_->mutex);
  shared_->leaving = true;
  shared_->changed.notify_all();
  const bool left = shared_->changed.wait_for(lock, kLeave, [&] { return shared_->left; });
  lock.unlock();
  if (left)
    thread_.join();
  else
    thread_.detach();
}

void Speaker::play(Samples samples) {
  {
    const std::lock_guard lock(shared_->mutex);
    shared_->next = std::move(samples);
  }
  shared_->changed.notify_all();
}

Speaker::State Speaker::state() const {
  const std::lock_guard lock(shared_->mutex);
  return shared_->state;
}

bool Speaker::wait_until_quiet(std::chrono::milliseconds at_most) {
  std::unique_lock lock(shared_->mutex);
  return shared_->changed.wait_for(lock, at_most, [&] { return !shared_->next && !shared_->busy; });
}

void Speaker::run(Shared& s) {
  std::unique_lock lock(s.mutex);
  std::unique_ptr<Voice> voice;
  const auto something = [&] { return s.leaving || s.next.has_value(); };
  const auto unlocked = [&](auto work) {
    lock.unlock();
    auto made = work();
    lock.lock();
    return made;
  };
  const auto close = [&] { return voice.reset(), true; };
  const auto settle = [&](bool there) {
    s.state = there ? State::there : State::none;
    s.changed.notify_all();
  };
  settle(unlocked([] { return Voice::open() != nullptr; }));
  while (!s.leaving) {
    if (voice && !s.changed.wait_for(lock, kHeld, something)) unlocked(close);
    if (!voice) s.changed.wait(lock, something);
    if (s.leaving || !s.next) continue;
    const Samples samples = *std::exchange(s.next, std::nullopt);
    s.busy = true;
    const bool playing = unlocked([&] {
      if (voice && voice->play(samples)) return true;
      voice.reset();  // closed before it is opened anew
      voice = Voice::open();
      return voice && voice->play(samples);
    });
    settle(playing);
    if (playing) s.changed.wait_for(lock, length(samples) + kTail, something);
    s.busy = false;
    s.changed.notify_all();
  }
  unlocked(close);
  s.left = true;
  s.changed.notify_all();
}

}  // namespace squeezeout::platform
