insideline compare "$CORPUS/lantern-street.musicxml" "$CORPUS/fish-dock-blues.musicxml" "$CORPUS/early-ferry.musicxml" --names Anke,Bjarne,Carla --seed 7 --resamples 500 | sed "/^Every figure/,$ d"
