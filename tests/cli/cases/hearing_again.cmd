for piece in net-menders fish-dock-blues; do
  cp "$CORPUS/$piece.musicxml" .
  insideline analyze $piece.musicxml --json before.json --hearing-out all.txt >/dev/null
  insideline analyze $piece.musicxml --hearing all.txt --json after.json >/dev/null
  diff before.json after.json | grep '^[<>]'
  sed 's/^# \([0-9]\)/\1/' all.txt > $piece.hearing
  insideline analyze $piece.musicxml | grep 'set by hand'
done
insideline survey . --db solos.db | head -n 1
insideline survey . --db solos.db --no-hearing >/dev/null 2>&1
