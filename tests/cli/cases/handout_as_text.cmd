insideline handout "$CORPUS/third-mooring.musicxml" --bars 1-4 --written --no-chords --paper letter --ly - | tail -n 40
