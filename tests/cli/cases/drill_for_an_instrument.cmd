insideline drill --changes "$CORPUS/lantern-street.changes" --range tenor-sax --written -o two.ly >two.txt
insideline drill --changes "$CORPUS/lantern-street.changes" --for tenor-sax -o one.ly >one.txt
cmp two.ly one.ly && cmp two.txt one.txt && echo "the same sheet and plan"
insideline drill --changes "$CORPUS/lantern-street.changes" --for tenor-sax -o sheet.mid >/dev/null
insideline drill --changes "$CORPUS/lantern-street.changes" --for kazoo -o sheet.mid
