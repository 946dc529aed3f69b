insideline handout "$CORPUS/third-mooring.musicxml" --bars 1 --written --ly - | sed -n '/^chords-above/,/^degrees-below/p'
insideline handout "$CORPUS/third-mooring.musicxml" --bars 1 --concert --ly - | sed -n '/^chords-above/,/^degrees-below/p'
