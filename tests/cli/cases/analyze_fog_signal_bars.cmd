insideline analyze "$CORPUS/fog-signal.musicxml" --bars
