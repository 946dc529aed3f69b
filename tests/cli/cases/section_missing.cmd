insideline analyze "$CORPUS/ropewalk.musicxml" --section "chorus 4"
