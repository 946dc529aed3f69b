insideline analyze "$CORPUS/harbour-light.musicxml" --bars
