insideline handout "$CORPUS/ropewalk.musicxml" --bars 1-4 --key --ly - | tail -n 40
