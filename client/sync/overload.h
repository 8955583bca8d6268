#pragma once
// std::visit with one function a variant: an alternative without its own does not compile.

namespace squeezeout {

template <class... Fs>
struct Overload : Fs... {
  using Fs::operator()...;
};
template <class... Fs>
Overload(Fs...) -> Overload<Fs...>;

}  // namespace squeezeout
