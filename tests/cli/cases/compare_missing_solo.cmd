insideline compare "$CORPUS/ropewalk.musicxml" gone.musicxml --json both.json
