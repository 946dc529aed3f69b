insideline analyze "$CORPUS/lantern-street.musicxml" --details
