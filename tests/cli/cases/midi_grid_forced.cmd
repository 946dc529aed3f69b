insideline analyze "$DATA/chord_markers.mid" --grid triplets --bars
