insideline handout "$CORPUS/ropewalk.musicxml" --bars 1-4 --show arpeggios,guide-tones --ly - | tail -n 60
