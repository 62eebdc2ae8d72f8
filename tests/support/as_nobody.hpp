#pragma once
// Looks at the disk with the eyes of somebody who is not root, who may read and write everything.

#include <unistd.h>

namespace lakebound::testing {

class AsNobody {
public:
    AsNobody() : was_root_(::geteuid() == 0) {
        if (!was_root_) return;
        changed_ = ::setresgid(65534, 65534, 0) == 0 && ::setresuid(65534, 65534, 0) == 0;
    }
    ~AsNobody() {
        if (!was_root_) return;
        if (::setresuid(0, 0, 0) != 0 || ::setresgid(0, 0, 0) != 0) ::_exit(70);
    }
    AsNobody(const AsNobody&) = delete;
    AsNobody& operator=(const AsNobody&) = delete;

    /// False where root cannot become another user: then permission cannot be tested.
    explicit operator bool() const noexcept { return !was_root_ || changed_; }

private:
    bool was_root_, changed_ = false;
};

} // namespace lakebound::testing
