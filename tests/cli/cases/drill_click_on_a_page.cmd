insideline drill --changes "$CORPUS/lantern-street.changes" --click -o sheet.musicxml
