insideline drill --changes "$CORPUS/lantern-street.changes" --cell "5 b7 1" -o sheet.musicxml
