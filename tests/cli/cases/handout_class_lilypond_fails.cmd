mkdir bin
printf '#!/bin/sh\necho "sheet-1.ly:1:1: error: something is wrong"\nexit 1\n' >bin/lilypond
chmod +x bin/lilypond
PATH="$PWD/bin:$PATH" insideline handout "$DATA/two_bars.musicxml" --class "tuba, viola, oboe" -o class || echo "exit $?"
mkdir kept
PATH="$PWD/bin:$PATH" insideline handout "$DATA/two_bars.musicxml" --class tuba -o kept
