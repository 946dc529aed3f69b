insideline analyze "$CORPUS/chandlery-stairs.musicxml" --bars
