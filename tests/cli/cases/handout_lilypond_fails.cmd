mkdir bin
printf '#!/bin/sh\necho "sheet.ly:1:1: error: something is wrong"\nexit 1\n' >bin/lilypond
chmod +x bin/lilypond
PATH="$PWD/bin:$PATH" insideline handout "$DATA/two_bars.musicxml" -o sheet.pdf
