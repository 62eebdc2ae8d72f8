#!/bin/sh
# installed_check.sh FOLDER: run as root in a system made for it (tests/elsewhere.sh packages). Installs the Debian
# packages of FOLDER; every command answers from any folder, has its manual page and its completion, and the example of
# its help works as it is typed; with the development package a program is built by CMake and by pkg-config in an empty
# folder; removed again nothing of it is left.
set -eu
packages=$1
fail() { printf 'FAILED: %s\n' "$*" >&2; exit 1; }
apt-get update -qq
apt-get purge -y -qq lakebound liblakebound-dev >/dev/null 2>&1 || true
# A bare system leaves out what stands in share/doc and share/man only if it is told so.
apt-get install -y -qq --no-install-recommends "$packages"/lakebound_*.deb man-db bash bash-completion >/dev/null
here=$(mktemp -d)
cd "$here"
commands=$(cd /usr/bin && ls -d lakebound-*)
[ "$(printf '%s\n' "$commands" | wc -l)" -ge 7 ] || fail "too few commands: $commands"
for command in $commands; do
    "$command" --version >/dev/null || fail "$command --version"
    "$command" --searched | grep -q '^/usr/share/lakebound/formulations' || fail "$command does not find its shelf"
    example=$("$command" --help | sed -n "s/^ *\\($command .*\\)/\\1/p" | head -n 1)
    [ -n "$example" ] || fail "$command --help has no example"
    status=0
    sh -c "$example" >answer 2>error || status=$?
    { [ "$status" -le 1 ] && [ -s answer ]; } || fail "the example of $command ends with $status: $example: $(cat error)"
    man --warnings "$command" >page 2>warned || fail "man $command"
    { [ -s page ] && [ ! -s warned ]; } || fail "man $command warns: $(cat warned)"
    cat >complete.bash <<EOF
. /usr/share/bash-completion/bash_completion
_completion_loader $command
COMP_WORDS=($command --hel) COMP_CWORD=1 COMP_LINE="$command --hel" COMP_POINT=\${#COMP_LINE}
\$(complete -p $command | sed 's/.*-F \\([^ ]*\\).*/\\1/') $command --hel $command
printf '%s\n' "\${COMPREPLY[@]}"
EOF
    bash complete.bash | grep -qx -e --help || fail "bash does not complete $command --hel"
    for file in "/usr/share/zsh/vendor-completions/_$command" "/usr/share/fish/vendor_completions.d/$command.fish"; do
        [ -s "$file" ] || fail "no $file"
    done
    echo "$command: $example"
done

apt-get install -y -qq --no-install-recommends "$packages"/liblakebound-dev_*.deb g++ cmake make pkg-config >/dev/null
cp -r /usr/share/doc/lakebound/examples examples
cmake -S examples -B build >/dev/null
cmake --build build >/dev/null
ctest --test-dir build --no-tests=error >tests || { cat tests; fail "the examples"; }
tail -n 3 tests
# shellcheck disable=SC2046  # one word per flag
c++ -std=c++20 examples/size_a_batch.cpp $(pkg-config --cflags --libs lakebound-core) -o size_a_batch
./size_a_batch

apt-get purge -y -qq lakebound liblakebound-dev >/dev/null
# (What man keeps in its cache is man's.)
left=$(find / -xdev -path "$here" -prune -o -path "$packages" -prune -o -path /var/cache -prune -o -name '*lakebound*' -print 2>/dev/null)
[ -z "$left" ] || fail "left behind: $left"
rm -rf "$here"
echo "installed, tried and removed"
