insideline analyze "$CORPUS/tide-table.musicxml" --bars
