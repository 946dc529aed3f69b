insideline drill --changes "$CORPUS/lantern-street.changes" --ladder apart --wav sheet.wav -o sheet.mid
