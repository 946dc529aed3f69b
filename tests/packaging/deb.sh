#!/usr/bin/env bash
# deb.sh BUILD CPACK PROGRAM VERSION
#
# Packages what was built, unpacks both packages into a folder tree of their own, and runs the program from there on the
# demo piece that was packaged with it. Skipped (77) where Debian's tools are missing.
set -euo pipefail
shopt -s inherit_errexit
build=$1
cpack=$2
program=$3
version=$4
for tool in dpkg-deb dpkg-shlibdeps; do
  command -v "$tool" >/dev/null || { echo "skipped: there is no $tool here" && exit 77; }
done

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failed=0
fail() { echo "deb: $*" >&2; failed=1; }

# Compressing well takes long and is of no use here.
"$cpack" --config "$build/CPackConfig.cmake" -B "$work" -D CPACK_DEBIAN_COMPRESSION_TYPE=gzip >"$work/log" 2>&1 ||
  { cat "$work/log" >&2 && exit 1; }
architecture=$(dpkg --print-architecture)
player=$work/insideline_$version-1_$architecture.deb
developer=$work/libinsideline-dev_$version-1_$architecture.deb

has() {  # package, field, what must be in it
  local value
  value=$(dpkg-deb -f "$1" "$2")
  [[ $value == *"$3"* ]] || fail "$(basename "$1"): $2 has no \"$3\": $value"
}
for library in libc6 libsndfile1 libzip4; do has "$player" Depends "$library"; done
has "$player" Recommends lilypond
has "$player" Recommends fluidsynth
for library in libfmt-dev libpugixml-dev libsndfile1 libsqlite3-dev libzip4; do has "$developer" Depends "$library"; done
if [[ $(dpkg-deb -f "$player" Depends) == *-dev* ]]; then fail "the program's package depends on packages of developers"; fi

dpkg-deb -x "$player" "$work/tree"
installed=$work/tree/usr/bin/insideline
demo=$work/tree/usr/share/doc/insideline/examples/corpus-demo
(cd "$demo" && "$installed" analyze lantern-street.musicxml --changes lantern-street.changes) >"$work/said"
(cd "$demo" && "$program" analyze lantern-street.musicxml --changes lantern-street.changes) >"$work/expected"
cmp "$work/said" "$work/expected" || fail "the packaged program says something else than the one that was built"
grep -q "chord" "$work/said" || fail "the packaged program says nothing of chords"
if find "$work/tree" -name '*.hpp' -o -name '*.a' | grep .; then fail "the program's package has files for developers"; fi

dpkg-deb -x "$developer" "$work/developer"
for file in include/insideline/analyzer/analysis.hpp lib/libinsideline_analyzer.a \
  lib/cmake/insideline/insideline-config.cmake; do
  [[ -f $work/developer/usr/$file ]] || fail "libinsideline-dev has no /usr/$file"
done
both=$(comm -12 <(cd "$work/tree" && find . -type f | sort) <(cd "$work/developer" && find . -type f | sort))
[[ -z $both ]] || fail "these files are in both packages: $both"

if command -v lintian >/dev/null; then
  # The archives of a build for developers have lines for a debugger, which it takes a minute to look through.
  lintian --allow-root --fail-on error,warning "$player" >"$work/lintian" 2>&1 ||
    fail "lintian complains: $(<"$work/lintian")"
else
  echo "deb: lintian is not installed, so the packages were not looked over"
fi
exit "$failed"
