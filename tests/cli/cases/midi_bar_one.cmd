insideline analyze "$DATA/chord_markers.mid" --bar-one 4 --csv -
