insideline analyze "$DATA/half_beat_later.ogg" --changes "$CORPUS/lantern-street.changes" --tempo 120 --bars | sed -n '/^Bar by bar/,/^note/p'
