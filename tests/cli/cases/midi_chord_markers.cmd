insideline analyze "$DATA/chord_markers.mid" --bars
