#!/bin/sh
# handout_pages.sh PROGRAM CORPUS DATA
#
# Prints sheets and reads them back with pdftotext: every chord symbol and every degree must be there, in order, on the
# expected number of pages; a worksheet must not give its answers away; a title must be shown and not run. Accidentals
# are glyphs of the music font and have no text, so both sides are compared without them.
# Exits 77, which ctest reports as skipped, where LilyPond or pdftotext is not installed.
set -eu

program=$1
CORPUS=$2
DATA=$3

for tool in lilypond pdftotext; do
  if ! command -v "$tool" >/dev/null; then
    echo "skipped: $tool is not installed"
    exit 77
  fi
done

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"

fail() {
  echo "FAILED: $1"
  exit 1
}

same() {  # what, expected, found
  [ "$2" = "$3" ] || fail "$1
expected: $2
found:    $3"
}

# The rows of a PDF, one system a line, words from left to right: "chords" or "degrees". A chord row is where letters
# A to G stand in the size of roots; the degree row is the lowest row of numbers before the next chord row.
rows() {  # file, which
  pdftotext -bbox "$1" - | LC_ALL=C awk -v which="$2" '
    function is_root(i,   height) {
      height = bottom[i] - top[i]
      return text[i] ~ /^[A-G]([a-z(+-].*)?$/ && (height > 9.1 && height < 9.35 || height > 11.2 && height < 11.5)
    }
    function print_page(   i, j, n, keep, limit, lowest) {
      n = 0
      for (i = 1; i <= words; i++) {
        if (!is_root(i)) continue
        for (j = 1; j <= n && (row[j] - top[i] > 2 || top[i] - row[j] > 2); j++);
        if (j > n) row[++n] = top[i]
      }
      for (i = 1; i < n; i++)
        for (j = i + 1; j <= n; j++)
          if (row[j] < row[i]) { keep = row[i]; row[i] = row[j]; row[j] = keep }
      for (j = 1; j <= n; j++) {
        limit = j < n ? row[j + 1] - 14 : end
        lowest = 0
        for (i = 1; i <= words; i++)
          if (bottom[i] > row[j] && bottom[i] < limit && plain[i] ~ /^[0-9()!]+$/ && bottom[i] - top[i] < 9.5 &&
              bottom[i] > lowest) lowest = bottom[i]
        if (which == "chords") print_row(top, row[j] - 2, row[j] + 2)
        else print_row(bottom, lowest - 4, lowest + 1)
      }
    }
    function print_row(edge, from, to,   i, j, count, order, line, keep) {
      count = 0
      for (i = 1; i <= words; i++)
        if (edge[i] >= from && edge[i] <= to) order[++count] = i
      for (i = 1; i < count; i++)
        for (j = i + 1; j <= count; j++)
          if (left[order[j]] < left[order[i]]) { keep = order[i]; order[i] = order[j]; order[j] = keep }
      line = ""
      for (i = 1; i <= count; i++) line = line plain[order[i]]
      print line
    }
    /<page / { words = 0; end = 1000000 }
    /<word / {
      split($0, part, "\"")
      words++
      left[words] = part[2] + 0; top[words] = part[4] + 0; bottom[words] = part[8] + 0
      text[words] = $0
      sub(/^[^>]*>/, "", text[words]); sub(/<\/word>.*$/, "", text[words])
      plain[words] = text[words]
      gsub(/[^ -~]/, "", plain[words])
      if (text[words] == "figures" || text[words] == "Answers") end = top[words] - 4
    }
    /<\/page>/ { if (end == 1000000) end = 772; print_page() }'
}

pages() { pdftotext "$1" - | tr -cd '\f' | wc -c | tr -d ' '; }

expected_degrees() {  # options of the solo
  "$program" analyze "$@" --csv - 2>/dev/null | awk -F, '
    NR == 1 { for (i = 1; i <= NF; i++) column[$i] = i; next }
    $column["grace"] == "yes" { next }
    {
      mark = $column["degree"]; gsub(/[b#]/, "", mark)
      role = $column["role"]
      if (role == "non-chord tone") mark = "(" mark ")"
      if (role == "outside") mark = mark "!"
      printf "%s", mark
    }'
}

expected_chords() {
  "$program" analyze "$@" --json - 2>/dev/null | sed -n '/^  "chords"/,/^  "notes"/s/.*"symbol": "\([^"]*\)".*/\1/p' |
    tr -d 'b#\n'
}

check_piece() {  # name, pages, options of the solo
  name=$1
  wanted_pages=$2
  shift 2
  "$program" handout "$@" -o "$name.pdf" 2>/dev/null || fail "$name: no sheet"
  same "$name: chord symbols in order" "$(expected_chords "$@")" "$(rows "$name.pdf" chords | tr -d 'b#\n')"
  same "$name: degrees in order" "$(expected_degrees "$@")" "$(rows "$name.pdf" degrees | tr -d '\n')"
  same "$name: pages" "$wanted_pages" "$(pages "$name.pdf")"
}

check_piece lantern 2 "$CORPUS/lantern-street.musicxml" --changes "$CORPUS/lantern-street.changes"
check_piece waltz 1 "$CORPUS/slipway-waltz.musicxml"

# A worksheet, under a title that tries to run something.
title='\&quot;}#(system \&quot;touch ran\&quot;)$x\\markup \\include \&quot;y\&quot; %{ \&lt;b\&gt; \&amp;'
sed "s|<work-title>[^<]*</work-title>|<work-title>$title</work-title>|" "$CORPUS/slipway-waltz.musicxml" >hostile.musicxml
grep -q 'touch ran' hostile.musicxml || fail "the test file has no title to replace"
TMPDIR=$work "$program" handout hostile.musicxml --worksheet -o worksheet.pdf 2>/dev/null || fail "a hostile title: no sheet"
pdftotext worksheet.pdf worksheet.txt
grep -q 'Circle the thirds' worksheet.txt || fail "the worksheet has no tasks"
if grep -Eq '(up|down!?|both ways) *[0-9]+-' worksheet.txt; then fail "the worksheet shows what its brackets hold"; fi
same "the worksheet shows no degrees" "" "$(rows worksheet.pdf degrees | tr -d '\n' | tr -cd '()')"
tr '\n' ' ' <worksheet.txt | grep -qF '"}#(system "touch ran")$x\markup \include "y" %{ <b> &' ||
  fail "a hostile title is not shown as it is: $(head -n 3 worksheet.txt)"
if find "$work" -name ran | grep -q .; then fail "a hostile title was run"; fi
if find "$work" -name 'insideline-*' | grep -q .; then fail "a temporary folder is left behind"; fi

# What the tasks count is drawn as often on the key: the letters over the notes, counted in the page, without those in the
# texts above and below the music.
"$program" handout "$CORPUS/lantern-street.musicxml" --changes "$CORPUS/lantern-street.changes" --key -o key.pdf 2>/dev/null ||
  fail "no key"
pdftotext -layout key.pdf key.txt
for word in PT T; do
  asked=$(sed -n "s/^ *[0-9]\. *Write $word over.*(\([0-9]*\) [a-z -]*)\$/\1/p" key.txt | head -n 1)
  drawn=$(grep -v 'Write' key.txt | grep -ow "$word" | wc -l | tr -d ' ')
  [ -n "$asked" ] || fail "the key has no task for $word"
  same "$word over the notes of the key" "$asked" "$drawn"
done
"$program" handout "$CORPUS/lantern-street.musicxml" --changes "$CORPUS/lantern-street.changes" --worksheet --one-page \
  -o one.pdf 2>/dev/null || fail "no sheet on one page"
same "a worksheet of 32 bars on one page" 1 "$(pages one.pdf)"
# A class: every instrument has a sheet in its clef, and LilyPond has nothing to say against any of them.
known=$("$program" handout "$CORPUS/ropewalk.musicxml" --class kazoo -o class 2>&1 | sed -n 's/.*known are: //p')
"$program" handout "$CORPUS/ropewalk.musicxml" --bars 1-4 --class "$known" --ly class >/dev/null 2>&1 ||
  fail "no sheets for a class"
same "a sheet for each instrument" "$(echo "$known" | tr ',' '\n' | wc -l)" "$(find class -name '*.ly' | wc -l)"
same "the clef of a trombone" "1" "$(grep -c '^  .clef bass ' class/trombone.ly)"
same "LilyPond's warnings" "" "$(cd class && lilypond --loglevel=WARNING -dno-print-pages ./*.ly 2>&1)"
