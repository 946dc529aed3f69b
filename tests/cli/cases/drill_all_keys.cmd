insideline drill --changes "$CORPUS/lantern-street.changes" --bars 1-4 --all-keys --range alto-sax --written -o sheet.musicxml && grep -E "<fifths>|<words|light-light" sheet.musicxml
