insideline drill --changes "$CORPUS/lantern-street.changes" --guide-tones two --rhythm quarters -o sheet.musicxml
