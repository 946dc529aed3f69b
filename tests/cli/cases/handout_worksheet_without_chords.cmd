insideline handout "$CORPUS/ropewalk.musicxml" --worksheet --no-chords --ly - | grep -A 8 "section .Tasks"
