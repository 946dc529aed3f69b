#!/bin/sh
# A second reader of ABC: abc2midi (Debian package abcmidi) plays the same tunes, and every note must begin, last and
# sound as it does here.  compare_with_abc2midi.sh HEAR_ABC FOLDER LEAST_TUNES DIFFERENCES FILE-OR-FOLDER...
# DIFFERENCES lists tunes that are known to differ, one a line: FILE NUMBER REASON.
set -u
hear=$1 folder=$2 least=$3 differences=$4
shift 4
command -v abc2midi >/dev/null || { echo "skipped: abc2midi is not installed (package abcmidi)"; exit 77; }
rm -rf "$folder" && mkdir -p "$folder" || exit 1
same=0 known=0 wrong=0
for file in $(find "$@" -name '*.abc' | sort); do
  name=$(basename "$file" .abc)
  "$hear" --plain "$file" > "$folder/$name.abc" || exit 1
  for number in $(sed -n 's/^X: *\([0-9][0-9]*\).*/\1/p' "$file"); do
    midi=$folder/$name-$number.mid
    abc2midi "$folder/$name.abc" "$number" -o "$midi" -silent -NGRA -NGUI -NFER >/dev/null 2>&1
    listed=$(grep -c "^$name.abc $number " "$differences")
    if text=$("$hear" "$file" "$number" "$midi"); then
      same=$((same + 1))
      [ "$listed" = 0 ] || { echo "$name.abc $number is listed as different and is not"; wrong=$((wrong + 1)); }
    elif [ "$listed" = 1 ]; then
      known=$((known + 1))
    else
      echo "$text"; wrong=$((wrong + 1))
    fi
  done
done
echo "$same tunes sound alike, $known differ as listed, $wrong differ"
[ "$wrong" = 0 ] && [ "$same" -ge "$least" ]
