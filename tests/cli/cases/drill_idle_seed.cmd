insideline drill --changes "$CORPUS/lantern-street.changes" --cell "1 2 3 5" --seed 4 -o sheet.mid | head -1
