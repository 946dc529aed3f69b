insideline analyze "$DATA/block_chords.mid" --track Horn --chord-track Piano --bars
