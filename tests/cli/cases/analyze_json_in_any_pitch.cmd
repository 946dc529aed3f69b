insideline analyze "$CORPUS/third-mooring.musicxml" --json own.json >/dev/null
insideline analyze "$CORPUS/third-mooring.musicxml" --concert --json concert.json >/dev/null
insideline analyze "$CORPUS/third-mooring.musicxml" --for horn --json horn.json >/dev/null
cmp own.json concert.json && cmp own.json horn.json && echo "the same analysis file"
