insideline compare "$CORPUS/ropewalk.musicxml" --sections
