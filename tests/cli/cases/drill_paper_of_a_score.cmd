insideline drill --changes "$CORPUS/lantern-street.changes" --paper letter -o sheet.musicxml
