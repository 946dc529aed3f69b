insideline compare "$CORPUS/lantern-street.musicxml" "$CORPUS/fish-dock-blues.musicxml" "$CORPUS/early-ferry.musicxml" --names Ann,Bob,Cleo --seed 7 --resamples 500 | sed "/^Every figure/,$ d"
