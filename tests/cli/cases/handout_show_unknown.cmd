insideline handout "$CORPUS/ropewalk.musicxml" --show arpegios --ly -
