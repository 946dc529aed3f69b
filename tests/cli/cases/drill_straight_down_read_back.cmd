insideline drill --changes "$CORPUS/lantern-street.changes" --straight-down -o sheet.musicxml
insideline analyze sheet.musicxml --strict --bars | tail -24
