insideline analyze "$CORPUS/early-ferry.musicxml" --bars
