insideline drill --changes "$CORPUS/lantern-street.changes" -o sheet.musicxml
