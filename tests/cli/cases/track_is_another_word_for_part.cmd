insideline analyze "$CORPUS/tide-table.musicxml" --track 1 --csv - | head -n 3
