insideline analyze "$DATA/chord_markers.mid" --bar-one first
