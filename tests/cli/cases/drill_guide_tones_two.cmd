insideline drill --changes "$CORPUS/lantern-street.changes" --guide-tones two -o sheet.musicxml
