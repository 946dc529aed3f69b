insideline drill --changes "$CORPUS/lantern-street.changes" --like "$CORPUS/lantern-street.musicxml" -o sheet.musicxml
