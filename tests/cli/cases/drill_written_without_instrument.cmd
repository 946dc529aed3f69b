insideline drill --changes "$CORPUS/lantern-street.changes" --written -o sheet.musicxml
