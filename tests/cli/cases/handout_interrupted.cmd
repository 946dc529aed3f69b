mkdir bin tmp
printf '#!/bin/sh\necho $$ >%s/started\nsleep 60\n' "$PWD" >bin/lilypond
chmod +x bin/lilypond
exec 3>&2 2>/dev/null  # the shell may remark on what is ended
interrupted() {
  rm -f started
  TMPDIR=$PWD/tmp PATH="$PWD/bin:$PATH" insideline "$@" 2>&3 &
  program=$!
  until [ -s started ]; do sleep 0.1; done
  kill -TERM "$program"
  wait "$program" || echo "ended with status $?"
  kill -0 "$(cat started)" || echo "LilyPond has ended as well"
}
interrupted handout "$DATA/two_bars.musicxml" -o sheet.pdf
interrupted handout "$DATA/two_bars.musicxml" --class trumpet,piano --ly texts -o pages
interrupted analyze "$DATA/two_bars.musicxml" --json a.json --html b.html --score
