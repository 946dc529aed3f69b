insideline analyze "$CORPUS/third-mooring.musicxml" --bars
