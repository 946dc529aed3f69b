insideline analyze "$CORPUS/net-menders.musicxml" --bars
