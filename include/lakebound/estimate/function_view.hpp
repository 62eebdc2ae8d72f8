#pragma once
// FunctionView: a borrowed callable, two words wide, without allocation.
//
// For parameters only: it refers to the callable of the caller and must not outlive it.

#include <memory>
#include <type_traits>
#include <utility>

namespace lakebound {

template <class Signature> class FunctionView;

template <class Result, class... Arguments> class FunctionView<Result(Arguments...)> {
public:
    template <class F>
    requires(!std::is_same_v<std::remove_cvref_t<F>, FunctionView> &&
             std::is_object_v<std::remove_reference_t<F>> && std::is_invocable_r_v<Result, F&, Arguments...>)
        FunctionView(F&& f)
    noexcept
        : object_(const_cast<void*>(static_cast<const void*>(std::addressof(f)))),
          call_([](void* object, Arguments... arguments) -> Result {
              return (*static_cast<std::remove_reference_t<F>*>(object))(std::forward<Arguments>(arguments)...);
          }) {}

    Result operator()(Arguments... arguments) const {
        return call_(object_, std::forward<Arguments>(arguments)...);
    }

private:
    void* object_;
    Result (*call_)(void*, Arguments...);
};

} // namespace lakebound
