insideline drill --changes "$CORPUS/lantern-street.changes" --range F3-C4 -o sheet.musicxml
