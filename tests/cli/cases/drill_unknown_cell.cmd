insideline drill --changes "$CORPUS/lantern-street.changes" --cell "5 8 1" -o sheet.musicxml
