insideline drill --changes "$CORPUS/lantern-street.changes" --cell "b7 3 5" -o sheet.musicxml
