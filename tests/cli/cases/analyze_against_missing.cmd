insideline analyze "$CORPUS/ropewalk.musicxml" --against solos.db
