#!/bin/sh
# nothing_overwritten.sh PROGRAM CORPUS DATA
#
# Points every output of every command at a file that the same command reads or writes, by its name, by a detour, through a
# symbolic link and as a hard link. The program must refuse before anything is written: no file changes, none appears.
set -eu
program=$1
DATA=$3
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"

fail() {
  echo "FAILED: $1"
  exit 1
}

everything() { { find . && find . -type f -exec cksum {} +; } | LC_ALL=C sort; }

tries=0
refused() {  # ARGUMENT...: the program ends with 2 and says why
  status=0
  said=$("$program" "$@" 2>&1) || status=$?
  [ "$status" = 2 ] || fail "exit $status and not 2: $*
$said"
  case $said in
    *'would overwrite another file of this command'*) ;;
    *) fail "not said why: $*
$said" ;;
  esac
  tries=$((tries + 1))
}

untouched() {  # what was refused since it was asked last left all as it was
  everything | cmp -s - "$before" || fail "a file was touched: $*
$(everything | diff "$before" -)"
}

# spared FILE ARGUMENT...: refused with FILE as the last argument; each command once in every spelling, then by a hard
# link, which no comparison of names would find.
tried=
spared() {
  file=$1
  shift
  ending=${file##*.}
  ln "$file" "hard.$ending"
  if [ "$1" = "$tried" ]; then
    refused "$@" "hard.$ending"
  else
    ln -s "$file" "link.$ending"
    for spelling in "$file" "./$file" "aside/../$file" "$PWD/$file" "link.$ending" "hard.$ending"; do
      refused "$@" "$spelling"
    done
    rm "link.$ending"
  fi
  tried=$1
  rm "hard.$ending"
  untouched "$@"
}

before=$(mktemp)
trap 'rm -rf "$work" "$before"' EXIT
mkdir aside solos
cp "$DATA/no_chords.musicxml" solo.musicxml
printf 'title: Tune\n| Dm7 G7 | Cmaj7 |\n' >tune.changes
cp "$DATA/two_bars.musicxml" other.musicxml
cp "$DATA/free_time.mid" take.mid
cp "$DATA/free_time.beats" beats.txt
cp "$DATA/quay_steps.changes" quay.changes
cp quay.changes chart.mid
cp solo.musicxml solos/bare.musicxml
cp tune.changes solos/bare.changes
cp "$DATA/two_bars.musicxml" solos
: >solos/empty.mid
: >solos/nothing.changes
cp solos/bare.musicxml beside.musicxml
cp solos/bare.changes beside.changes
"$program" survey solos --db solos.db >/dev/null
"$program" survey solos --shard 1/2 --db part.db >/dev/null
"$program" drill --changes quay.changes -o sheet.musicxml >/dev/null
cp sheet.musicxml played.musicxml
"$program" assess played.musicxml --against sheet.musicxml --day 2026-11-25 --log takes.log >/dev/null
cp quay.changes sheet.changes
: >sheet.hearing
: >beside.hearing
ln -s new link-to-new
everything >"$before"

for report in json csv html annotated; do
  spared solo.musicxml analyze solo.musicxml --changes tune.changes --$report
  spared tune.changes analyze solo.musicxml --changes tune.changes --$report
  spared beats.txt analyze take.mid --beats beats.txt --changes tune.changes --$report
  spared solos.db analyze other.musicxml --against solos.db --$report
done
refused analyze other.musicxml --against solos.db --json solos.db-wal
untouched the log beside the database
spared other.musicxml handout other.musicxml -o
spared tune.changes handout solo.musicxml --changes tune.changes --ly
for report in json html; do
  spared other.musicxml compare solo.musicxml other.musicxml --changes tune.changes --$report
  spared tune.changes compare solo.musicxml other.musicxml --changes tune.changes --$report
  spared beside.changes compare other.musicxml beside.musicxml --$report
done
spared chart.mid drill --changes chart.mid -o
spared other.musicxml drill --changes quay.changes --like other.musicxml -o
spared other.musicxml drill --changes quay.changes --gaps other.musicxml -o
for follow in --like --gaps; do
  for file in changes hearing; do
    spared beside.$file drill --changes quay.changes $follow beside.musicxml -o new.mid --wav
  done
done
for output in --log --html; do
  spared played.musicxml assess played.musicxml --against sheet.musicxml $output
  spared sheet.musicxml assess played.musicxml --against sheet.musicxml $output
  spared quay.changes assess played.musicxml --against sheet.musicxml --changes quay.changes $output
done
for output in --log --json --html; do
  spared sheet.changes assess played.musicxml --against sheet.musicxml $output
  spared sheet.hearing assess played.musicxml --against sheet.musicxml $output
done
spared takes.log assess played.musicxml --against sheet.musicxml --log takes.log --html
for output in --json --csv --html; do
  spared takes.log log takes.log $output
done
for output in --db --csv --html; do
  for file in two_bars.musicxml bare.musicxml bare.changes empty.mid; do
    spared "solos/$file" survey solos $output
  done
  spared tune.changes survey solos --changes tune.changes $output
done
for output in --csv --html; do
  spared solos.db survey solos --db solos.db $output
  spared solos.db survey --report --db solos.db $output
done
spared part.db merge part.db -o
spared part.db merge solos.db part.db -o

# Two outputs into one file, also where it is not there yet.
for same in new ./new aside/../new link-to-new; do
  refused analyze other.musicxml --json new --csv $same
  refused compare other.musicxml other.musicxml --json new --html $same
  refused log takes.log --csv new --html $same
  refused survey solos --csv new --html $same
  refused survey solos --db new --html $same
  refused assess played.musicxml --against sheet.musicxml --log new --html $same
  refused handout other.musicxml -o new --ly $same
done
untouched two outputs into one file

# What is no clash goes through: a device takes any number of reports, a database is read and written.
said=$("$program" analyze other.musicxml --json /dev/null --csv /dev/null 2>&1) || fail "two reports to a device: $said"
said=$("$program" survey solos --db solos.db --csv solos/table.csv 2>&1) || fail "a table beside the solos: $said"
echo "refused $tries times"
