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

everything() { find . ! -name said -type f -exec cksum {} + | LC_ALL=C sort && find . -type l | LC_ALL=C sort; }

tries=0
refused() {  # ARGUMENT...: the program ends with 2, says why, and leaves all as it was
  everything >"$before"
  status=0
  "$program" "$@" >"$said" 2>&1 || status=$?
  [ "$status" = 2 ] || fail "exit $status and not 2: $*
$(cat "$said")"
  grep -q 'would overwrite another file of this command' "$said" || fail "not said why: $*
$(cat "$said")"
  everything | cmp -s - "$before" || fail "a file was touched: $*"
  tries=$((tries + 1))
}

# spared FILE ARGUMENT...: refused with FILE as the last argument; each command once in every spelling, then by a hard
# link, which no comparison of names would find.
tried=
spared() {
  file=$1
  shift
  ending=${file##*.}
  ln -s "$file" "link.$ending"
  ln "$file" "hard.$ending"
  if [ "$1" = "$tried" ]; then
    refused "$@" "hard.$ending"
  else
    for spelling in "$file" "./$file" "aside/../$file" "$PWD/$file" "link.$ending" "hard.$ending"; do
      refused "$@" "$spelling"
    done
  fi
  tried=$1
  rm "link.$ending" "hard.$ending"
}

before=$(mktemp)
said=$(mktemp)
trap 'rm -rf "$work" "$before" "$said"' EXIT
mkdir aside solos
cp "$DATA/no_chords.musicxml" solo.musicxml
printf 'title: Tune\n| Dm7 G7 | Cmaj7 |\n' >tune.changes
cp "$DATA/two_bars.musicxml" other.musicxml
cp "$DATA/free_time.mid" take.mid
cp "$DATA/free_time.beats" beats.txt
cp "$DATA/quay_steps.changes" quay.changes
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

for report in json csv html annotated; do
  spared solo.musicxml analyze solo.musicxml --changes tune.changes --$report
  spared tune.changes analyze solo.musicxml --changes tune.changes --$report
  spared beats.txt analyze take.mid --beats beats.txt --changes tune.changes --$report
  spared solos.db analyze other.musicxml --against solos.db --$report
done
refused analyze other.musicxml --against solos.db --json solos.db-wal
spared other.musicxml handout other.musicxml -o
spared tune.changes handout solo.musicxml --changes tune.changes --ly
for report in json html; do
  spared other.musicxml compare solo.musicxml other.musicxml --changes tune.changes --$report
  spared tune.changes compare solo.musicxml other.musicxml --changes tune.changes --$report
  spared beside.changes compare other.musicxml beside.musicxml --$report
done
cp quay.changes chart.mid
spared chart.mid drill --changes chart.mid -o
spared other.musicxml drill --changes quay.changes --like other.musicxml -o
spared other.musicxml drill --changes quay.changes --gaps other.musicxml -o
for output in --log --html; do
  spared played.musicxml assess played.musicxml --against sheet.musicxml $output
  spared sheet.musicxml assess played.musicxml --against sheet.musicxml $output
  spared quay.changes assess played.musicxml --against sheet.musicxml --changes quay.changes $output
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
ln -s new link-to-new
for same in new ./new aside/../new link-to-new; do
  refused analyze other.musicxml --json new --csv $same
  refused compare other.musicxml other.musicxml --json new --html $same
  refused log takes.log --csv new --html $same
  refused survey solos --csv new --html $same
  refused survey solos --db new --html $same
  refused assess played.musicxml --against sheet.musicxml --log new --html $same
  refused handout other.musicxml -o new --ly $same
done

# What is no clash goes through: a device takes any number of reports, a database is read and written.
"$program" analyze other.musicxml --json /dev/null --csv /dev/null >"$said" 2>&1 || fail "two reports to a device: $(cat "$said")"
"$program" survey solos --db solos.db --csv solos/table.csv >"$said" 2>&1 || fail "a table beside the solos: $(cat "$said")"
echo "refused $tries times"
