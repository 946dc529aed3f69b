insideline compare "$CORPUS/ropewalk.musicxml" --choruses
