#!/usr/bin/env bash
# manual.sh PREFIX
#
# Every command and every option that the installed program's own help shows must be in its manual page and in the
# completions of the three shells, and nothing else; the pages must be sound troff, and what a shell offers be of use.
set -euo pipefail
shopt -s inherit_errexit
prefix=$1
program=$prefix/bin/insideline
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

failed=0
fail() { echo "manual: $*" >&2; failed=1; }

same() {  # what it is, expected, found: words in any order
  local differences
  differences=$(diff <(tr ' ' '\n' <<<"$2" | sed '/^$/d' | sort -u) <(tr ' ' '\n' <<<"$3" | sed '/^$/d' | sort -u)) ||
    fail "$1: the help (<) and it (>) differ:" $'\n'"$differences"
}

commands=$("$program" --help | sed -n '/^Subcommands:/,/^$/s/^  \([a-z]\{1,\}\) .*/\1/p' | tr '\n' ' ')
[[ $(wc -w <<<"$commands") -ge 8 ]] || fail "the help names only these commands: $commands"

options_in_help() { "$program" "$@" --help | sed -n 's/^  \(-[^ ]*\).*/\1/p' | tr ',\n' '  '; }
page() { gzip -dc "$prefix/share/man/man1/$1.1.gz"; }
# Options stand in bold, after a line .TP.
options_in_page() { page "$1" | grep -A1 '^\.TP$' | grep -o '\\fB\\-[^ ]*\\fR' | sed 's/\\f[BR]//g; s/\\-/-/g' | tr '\n' ' '; }

same "insideline(1)" "$(options_in_help)" "$(options_in_page insideline)"
same "the pages" "insideline $(printf 'insideline-%s ' $commands)" \
  "$(cd "$prefix/share/man/man1" && printf '%s ' *.1.gz | sed 's/\.1\.gz//g')"
for command in $commands; do
  same "insideline-$command(1)" "$(options_in_help "$command")" "$(options_in_page "insideline-$command")"
  grep -q "^\\\\fBinsideline\\\\-$command\\\\fR(1)$" <<<"$(page insideline)" || fail "insideline(1) does not name $command"
done

if command -v groff >/dev/null; then
  for file in "$prefix"/share/man/man1/*.gz; do
    complaints=$(gzip -dc "$file" | groff -man -Tutf8 -ww -z 2>&1) || true
    [[ -z $complaints ]] || fail "$file: $complaints"
  done
fi

bash_offers() {  # the words of a command line, the last of them being written
  bash -c 'source "$1"; shift; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _insideline; printf "%s " "${COMPREPLY[@]}"' \
    bash "$prefix/share/bash-completion/completions/insideline" "$@"
}
same "commands in bash" "$commands -h --help --version" "$(bash_offers insideline '')"
for command in $commands; do
  same "$command in bash" "$(options_in_help "$command")" "$(bash_offers insideline "$command" -)"
done
touch "$work/one.musicxml"
same "words in bash" "concert written" "$(bash_offers insideline analyze --changes-pitch '')"
same "words behind = in bash" "written" "$(bash_offers insideline analyze --changes-pitch = w)"
same "files in bash" "$work/one.musicxml" "$(bash_offers insideline analyze "$work/o")"
same "files of an option in bash" "$work/one.musicxml" "$(bash_offers insideline analyze one --json "$work/o")"
same "a number in bash" "" "$(bash_offers insideline analyze --start-bar "")"

zsh_file=$prefix/share/zsh/vendor-completions/_insideline
for command in $commands; do
  rows=$(sed -n "/^        $command)/,/;;/p" "$zsh_file")
  same "$command in zsh" "$(options_in_help "$command")" \
    "$(sed -n "s/^ *'([^)]*)\(-[a-z-]*\)[=+]\{0,1\}\[.*/\1/p" <<<"$rows" | tr '\n' ' ')"
done
if command -v zsh >/dev/null; then zsh -n "$zsh_file" || fail "zsh cannot read its completion"; fi

if command -v fish >/dev/null; then
  fish_file=$prefix/share/fish/vendor_completions.d/insideline.fish
  fish_offers() { HOME=$work fish --no-config -c "source '$fish_file'; complete -C 'insideline $*'" | cut -f 1 | tr '\n' ' '; }
  same "commands in fish" "$commands" "$(fish_offers '')"
  for command in $commands; do
    same "$command in fish" "$(options_in_help "$command")" "$(fish_offers "$command -")$(fish_offers "$command --")"
  done
  same "words in fish" "concert written" "$(fish_offers 'analyze --changes-pitch ')"
else
  echo "manual: fish is not installed, so its completion was not tried"
fi
exit "$failed"
