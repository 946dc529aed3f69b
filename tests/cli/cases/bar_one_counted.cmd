insideline analyze "$CORPUS/lantern-street-take.mid" --changes "$DATA/lantern_counted.changes" --json solo.json | sed -n "1,8p"
sed -n "/\"alignment\"/,/^  }/p" solo.json
