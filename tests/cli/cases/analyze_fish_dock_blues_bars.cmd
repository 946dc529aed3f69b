insideline analyze "$CORPUS/fish-dock-blues.musicxml" --bars
