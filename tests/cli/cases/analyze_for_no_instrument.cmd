insideline analyze "$CORPUS/third-mooring.musicxml" --for kazoo || echo "exit $?"
insideline analyze "$CORPUS/third-mooring.musicxml" --for tuba --concert || echo "exit $?"
