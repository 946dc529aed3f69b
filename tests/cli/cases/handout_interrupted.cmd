mkdir bin tmp
printf '#!/bin/sh\necho $$ >%s/started\nsleep 60\n' "$PWD" >bin/lilypond
chmod +x bin/lilypond
TMPDIR=$PWD/tmp PATH="$PWD/bin:$PATH" insideline handout "$DATA/two_bars.musicxml" -o sheet.pdf &
program=$!
until [ -s started ]; do sleep 0.1; done
exec 2>/dev/null  # the shell may remark on it
kill -TERM "$program"
wait "$program" || echo "ended with status $?"
kill -0 "$(cat started)" || echo "LilyPond has ended as well"
