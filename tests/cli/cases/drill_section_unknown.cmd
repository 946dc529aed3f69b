insideline drill --changes "$CORPUS/lantern-street.changes" --section C -o sheet.mid
