insideline compare "$CORPUS/ropewalk.musicxml" "$CORPUS/net-menders.musicxml" --section 1-8 | head -n 3
