piece="$CORPUS/lantern-street"
insideline analyze "$piece.musicxml" --changes "$piece.changes" --annotated labelled.musicxml >/dev/null
diff "$piece.musicxml" labelled.musicxml | grep '<harmony>' | head -n 8
insideline analyze labelled.musicxml --json after.json | grep 'changes are'
insideline analyze "$piece.musicxml" --changes "$piece.changes" --json before.json >/dev/null
grep -c '"symbol"' before.json after.json
insideline analyze "$piece.musicxml" --changes "$piece.changes" --annotated - --no-chords | grep -c '<harmony>' || true
echo 'A part for a B flat trumpet: the symbols are as its player reads them.'
echo '| Cm7 F7 | Bbmaj7 |' > blues.changes
sed '/<harmony/,/<\/harmony>/d' "$CORPUS/third-mooring.musicxml" > trumpet.musicxml
insideline analyze trumpet.musicxml --changes blues.changes --annotated - | grep -o '<root-step>.*</kind>' | head -n 3
echo 'A score with symbols of its own keeps them.'
insideline analyze "$DATA/two_bars.musicxml" --changes blues.changes --annotated own.musicxml >/dev/null
grep -c '<harmony>' "$DATA/two_bars.musicxml" own.musicxml
