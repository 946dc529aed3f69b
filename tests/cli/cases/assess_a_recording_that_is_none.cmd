insideline drill --changes "$CORPUS/lantern-street.changes" --guide-tones one --bars 1-8 -o sheet.musicxml >/dev/null
echo "Dear diary, today I practised." >take.wav
insideline assess take.wav --against sheet.musicxml
