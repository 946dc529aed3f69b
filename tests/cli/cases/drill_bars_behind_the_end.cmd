insideline drill --changes "$CORPUS/lantern-street.changes" --bars 9-20 -o sheet.mid
