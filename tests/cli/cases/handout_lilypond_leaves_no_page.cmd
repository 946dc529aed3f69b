mkdir bin
printf '#!/bin/sh\necho "not today" >sheet-1.pdf\n' >bin/lilypond
chmod +x bin/lilypond
PATH="$PWD/bin:$PATH" insideline handout "$DATA/two_bars.musicxml" -o sheet.pdf
