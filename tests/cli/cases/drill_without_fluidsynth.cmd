PATH=${PATH%%:*}
insideline drill --changes "$CORPUS/lantern-street.changes" --wav sheet.wav -o sheet.mid
