mkdir bin
printf '#!/bin/sh\nkill -KILL $$\n' >bin/lilypond
chmod +x bin/lilypond
PATH="$PWD/bin:$PATH" insideline handout "$DATA/two_bars.musicxml" -o sheet.pdf
