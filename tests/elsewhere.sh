#!/bin/sh
# elsewhere.sh tests SUITE [ARCHITECTURE]: sh tests/run.sh on another Debian, or with 32 bits (bookworm i386), from a
#   fresh clone of what is committed.
# elsewhere.sh packages SUITE: the Debian packages, built here from a fresh clone of what is committed, installed in a
#   bare system, tried there, and taken away again.
# Takes root, debootstrap, its usual archive or LAKEBOUND_ARCHIVE, and some minutes; works in lakebound-elsewhere among the
# temporary files, or where LAKEBOUND_ELSEWHERE says, and keeps the systems for the next time.
set -eu
top=$(cd "$(dirname "$0")/.." && pwd)
what=${1-} suite=${2-} architecture=${3-$(dpkg --print-architecture)}
case "$what:$suite" in
tests:?* | packages:?*) ;;
*)
    printf '%s\n' "tests/elsewhere.sh takes 'tests SUITE [ARCHITECTURE]' or 'packages SUITE'" >&2
    exit 2
    ;;
esac
work=${LAKEBOUND_ELSEWHERE:-${TMPDIR:-/tmp}/lakebound-elsewhere}
system=$work/$what-$suite-$architecture
say() { printf '==> %s\n' "$*"; }

mkdir -p "$work"
[ -e "$system/var/log/bootstrap.log" ] || debootstrap --variant=minbase --arch="$architecture" "$suite" "$system" \
    ${LAKEBOUND_ARCHIVE:+"$LAKEBOUND_ARCHIVE"}
for file in resolv.conf hosts; do cp "/etc/$file" "$system/etc/$file"; done
leave() { for each in dev/pts dev proc; do umount "$system/$each" 2>/dev/null || true; done; }
trap leave EXIT
leave
mount -t proc proc "$system/proc"
mount --bind /dev "$system/dev"
mount --bind /dev/pts "$system/dev/pts"
inside() { chroot "$system" /usr/bin/env -i HOME=/srv PATH=/usr/sbin:/usr/bin:/sbin:/bin LANG=C.UTF-8 \
    DEBIAN_FRONTEND=noninteractive LAKEBOUND_DEVELOPER="${LAKEBOUND_DEVELOPER-}" "$@"; }

if [ "$what" = tests ]; then
    rm -rf "$system/srv/lakebound"
    git clone -q "$top" "$system/srv/lakebound"
    say "sh tests/run.sh on $suite, $architecture"
    inside sh /srv/lakebound/tests/run.sh
    exit 0
fi

rm -rf "$work/clone" "$work/packages"
git clone -q "$top" "$work/clone"
say "Packages from a fresh clone, as docs/install.md has it"
cmake -S "$work/clone" -B "$work/packages" -G Ninja -DCMAKE_INSTALL_PREFIX=/usr -DCMAKE_UNITY_BUILD=ON \
    -DLAKEBOUND_BUILD_TESTS=OFF >/dev/null
cmake --build "$work/packages" >/dev/null
(cd "$work/packages" && cpack -G DEB >/dev/null)
if command -v lintian >/dev/null 2>&1; then
    say "lintian"
    lintian --allow-root --tag-display-limit 0 --fail-on error,warning "$work"/packages/*.deb
fi
rm -rf "$system/srv/packages" "$system/srv/trial"
mkdir -p "$system/srv/packages"
cp "$work"/packages/*.deb "$system/srv/packages"
cp "$top/tests/consumer/installed_check.sh" "$system/srv/installed_check.sh"
say "Installed in a bare $suite"
inside sh /srv/installed_check.sh /srv/packages
