insideline drill --changes "$CORPUS/lantern-street.changes" --solo-changes "$CORPUS/lantern-street.changes" -o sheet.musicxml
