insideline drill --changes "$CORPUS/lantern-street.changes" --rhythm triplets --swing 2 -o sheet.mid
