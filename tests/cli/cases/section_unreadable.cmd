insideline analyze "$CORPUS/ropewalk.musicxml" --section 16-9
