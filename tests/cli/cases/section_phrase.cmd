insideline analyze "$CORPUS/ropewalk.musicxml" --section "phrase 2" --bars
