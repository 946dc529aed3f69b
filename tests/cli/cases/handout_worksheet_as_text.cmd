insideline handout "$CORPUS/ropewalk.musicxml" --bars 1-4 --worksheet --ly - | tail -n 40
