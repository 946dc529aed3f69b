insideline analyze "$CORPUS/lantern-street-take.mid" --changes "$CORPUS/lantern-street.changes" --bar-one 2 --json solo.json >/dev/null
sed -n "/\"alignment\"/,/^  }/p" solo.json
