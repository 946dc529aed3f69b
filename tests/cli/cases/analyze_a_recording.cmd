insideline analyze "$DATA/counted_take.wav" --changes "$CORPUS/lantern-street.changes" --bars | sed -n '1,/^Chord tones/p'
