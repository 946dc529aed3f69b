insideline analyze "$DATA/two_bars.musicxml" --annotated labelled.musicxml | head -n 3
diff "$DATA/two_bars.musicxml" labelled.musicxml || true
insideline analyze "$DATA/two_bars.musicxml" --json before.json >/dev/null
insideline analyze labelled.musicxml --json after.json >/dev/null
diff before.json after.json || true
