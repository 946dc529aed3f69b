cp "$CORPUS/ropewalk.musicxml" one.musicxml
insideline compare one.musicxml "$CORPUS/net-menders.musicxml" --html one.musicxml
