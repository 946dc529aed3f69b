insideline drill --changes "$CORPUS/lantern-street.changes" --against term.db -o sheet.musicxml
