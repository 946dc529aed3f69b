insideline analyze "$CORPUS/slipway-waltz.musicxml" --bars
