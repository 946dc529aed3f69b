insideline compare "$CORPUS/net-menders.musicxml" "$CORPUS/ropewalk.musicxml" --before-after | sed "/^How sure/,$ d"
