insideline analyze "$DATA/chord_markers.mid" --grid fifths
