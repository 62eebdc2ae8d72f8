# Sourced by apps/first-batch.sh and tests/run.sh: the packages, the build folder and the build.
# Safe to run again: what is installed and what is built is left as it is.
#
# Wants: $top (the checkout). Gives: install_packages NAME..., configure_project
# FOLDER CMAKE-OPTION..., build_project FOLDER TARGET..., and $together: the option that compiles the sources of a
# room together, in a third of the time. Developers compile each alone (DEVELOPERS.md).

build_packages="g++ cmake ninja-build libboost-dev libeigen3-dev libyaml-cpp-dev libfmt-dev libcli11-dev nlohmann-json3-dev"
test_packages="catch2 libbenchmark-dev python3 python3-numpy python3-scipy python3-yaml python3-jsonschema units jags chromium fonts-liberation"

together=-DCMAKE_UNITY_BUILD=ON

say() { printf '==> %s\n' "$*"; }

# Names of those packages that dpkg does not report as installed.
missing_packages() {
    for package in "$@"; do
        status=$(dpkg-query -W -f='${Status}' "$package" 2>/dev/null || true)
        [ "$status" = "install ok installed" ] || printf '%s ' "$package"
    done
}

explain_packages() {
    printf '%s\n' "$1" "Lakebound needs these Debian 12 packages, or their like on another system:" \
        "  $2" "Install them, then run this command again." >&2
    exit 2
}

install_packages() {
    if ! command -v dpkg-query >/dev/null 2>&1 || ! command -v apt-get >/dev/null 2>&1; then
        # Not a Debian: go on if the tools are there, else say what is wanted.
        if command -v cmake >/dev/null 2>&1 && command -v c++ >/dev/null 2>&1; then
            say "No apt-get here; going on with the compiler and libraries that are installed"
            say "Packages wanted, by their Debian names: $*"
            return
        fi
        explain_packages "No apt-get on this system." "$*"
    fi
    missing=$(missing_packages "$@")
    [ -z "$missing" ] && { say "Packages: all installed"; return; }
    if [ "$(id -u)" -eq 0 ]; then
        as_root=""
    elif command -v sudo >/dev/null 2>&1 && sudo -n true 2>/dev/null; then
        as_root="sudo"
    else
        explain_packages "Installing packages takes root, and this user is not." "$missing"
    fi
    say "Installing: $missing"
    $as_root apt-get update -qq || say "apt-get update failed; trying with the package lists at hand"
    # shellcheck disable=SC2086  # one word per package
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >/dev/null ||
        explain_packages "apt-get could not install them." "$missing"
}

# configure_project FOLDER CMAKE-OPTION...
configure_project() {
    folder=$1
    shift
    cmake -S "$top" -B "$folder" -G Ninja -DCMAKE_BUILD_TYPE=Release "$@" >"$folder.log" 2>&1 ||
        { cat "$folder.log" >&2; exit 3; }
    rm -f "$folder.log"
}

# build_project FOLDER TARGET...: builds what changed.
build_project() {
    folder=$1
    shift
    say "Building in $folder"
    cmake --build "$folder" --target "$@" >"$folder.log" 2>&1 || { tail -n 60 "$folder.log" >&2; exit 3; }
    rm -f "$folder.log"
}
