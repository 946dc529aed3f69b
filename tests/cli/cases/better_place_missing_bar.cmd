sed "s/^| Gm7 C7(b9) |/|/" "$CORPUS/lantern-street.changes" >short.changes
insideline analyze "$CORPUS/lantern-street.musicxml" --changes short.changes --json solo.json >/dev/null
sed -n "/\"alignment\"/,/^  }/p" solo.json
