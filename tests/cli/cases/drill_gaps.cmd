insideline drill --changes "$CORPUS/lantern-street.changes" --gaps "$CORPUS/lantern-street.musicxml" -o sheet.musicxml
