insideline handout "$CORPUS/tide-table.musicxml" --show non-chord-tones --bars 5-6 --ly - | sed -n '/^degrees-below/,/^}/p; /^motions-below/,/^}/p; /legend-items .(/p'
