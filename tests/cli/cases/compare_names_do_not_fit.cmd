insideline compare "$CORPUS/ropewalk.musicxml" "$CORPUS/net-menders.musicxml" --names Anke
