insideline analyze "$CORPUS/ropewalk.musicxml" --section 5-8 --bars
