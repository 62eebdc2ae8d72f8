#pragma once
// FunctionView: a borrowed callable, two words wide, without allocation.
//
// For parameters only: it refers to the callable of the caller and must not outlive it.

#include <memory>
#include <type_traits>
#include <utility>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

template <class Signature> class FunctionView;

template <class Result, class... Arguments> class FunctionView<Result(Arguments...)> {
public:
    template <class F>
    requires(!std::is_same_v<std::remove_cvref_t<F>, FunctionView> &&
             std::is_object_v<std::remove_reference_t<F>> && std::is_invocable_r_v<Result, F&, Arguments...>)
        FunctionView(F&& f)
    noexcept
        : target_{.object = const_cast<void*>(static_cast<const void*>(std::addressof(f)))},
          call_([](Target target, Arguments... arguments) -> Result {
              return (*static_cast<std::remove_reference_t<F>*>(target.object))(
                  std::forward<Arguments>(arguments)...);
          }) {}
    FunctionView(Result (&f)(Arguments...)) noexcept
        : target_{.function = &f}, call_([](Target target, Arguments... arguments) -> Result {
              return target.function(std::forward<Arguments>(arguments)...);
          }) {}

    Result operator()(Arguments... arguments) const {
        return call_(target_, std::forward<Arguments>(arguments)...);
    }

private:
    union Target {
        void* object;
        Result (*function)(Arguments...);
    } target_;
    Result (*call_)(Target, Arguments...);
};

} // namespace lakebound
