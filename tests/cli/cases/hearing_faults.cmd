for line in '1 3.5 neigbour' '1 2 tension' '40 1 tension' '1 3 b9' '1 3 passing tone' '1 3 grace tension'; do
  echo "# a word
$line" > mine.hearing
  insideline analyze "$CORPUS/lantern-street.musicxml" --hearing mine.hearing --json out.json || echo "exit $?"
done
printf '1 3 tone\n1 3 5\n\n1 3 outside\n' > mine.hearing
insideline analyze "$CORPUS/lantern-street.musicxml" --hearing mine.hearing || echo "exit $?"
insideline analyze "$CORPUS/lantern-street.musicxml" --hearing mine.hearing --hearing-out mine.hearing || echo "exit $?"
insideline analyze "$CORPUS/lantern-street.musicxml" --hearing gone.hearing || echo "exit $?"
insideline analyze "$CORPUS/lantern-street.musicxml" --section 1-4 --hearing-out - || echo "exit $?"
