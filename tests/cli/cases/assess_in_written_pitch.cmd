insideline drill --changes "$CORPUS/lantern-street.changes" --arpeggios down --range tenor-sax --written -o sheet.musicxml >/dev/null
sed "s/<transpose>.*<.transpose>//; /<transpose>/,/<.transpose>/ d" sheet.musicxml >take.musicxml
insideline assess take.musicxml --against sheet.musicxml ||
  insideline assess take.musicxml --against sheet.musicxml --transpose -14 | sed -n 2,4p
