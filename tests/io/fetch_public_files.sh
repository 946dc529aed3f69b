#!/bin/sh
# Fetches those files of Debian's source package of a notation program that match a PATTERN into FOLDER, once. They
# are compared, never kept in the repository. Exit status 77: there is no way to fetch them from here.
#
#   fetch_public_files.sh FOLDER PATTERN...
set -u
folder=$1
shift
package=musescore3
[ -f "$folder/complete" ] && exit 0

skip() {
  echo "skipped: 0 public files, $1"
  exit 77
}

command -v apt-get > /dev/null || skip "apt-get is not here"
mkdir -p "$folder/lists/partial" "$folder/cache/archives/partial" && cd "$folder" || exit 1

# The machine's own package sources, asked for source packages; nothing of the system is changed.
cat /etc/apt/sources.list.d/*.sources 2> /dev/null | sed 's/^Types:.*/Types: deb-src/' > own.sources
cat /etc/apt/sources.list /etc/apt/sources.list.d/*.list 2> /dev/null | sed -n 's/^deb\(-src\)\{0,1\} /deb-src /p' | sort -u > own.list
[ -s own.sources ] && list=own.sources || list=own.list
apt_own() {
  apt-get -q -o Dir::Etc::sourcelist="$PWD/$list" -o Dir::Etc::sourceparts=- -o Dir::State::lists="$PWD/lists" \
    -o Dir::Cache="$PWD/cache" -o Acquire::Retries=1 "$@"
}
apt_own update > fetch.log 2>&1
apt_own source --download-only --tar-only "$package" >> fetch.log 2>&1 || skip "the source of $package cannot be fetched"
tar xf "$package"_*.orig.tar.* --wildcards "$@" || exit 1
rm -rf lists cache "$package"_*
touch complete
