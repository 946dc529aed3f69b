for option in '--tempo nan' '--tempo inf' '--swing nan' '--tempo 10'; do
  insideline drill --changes "$CORPUS/lantern-street.changes" $option -o sheet.mid || echo "ended with status $?"
done
insideline analyze take.wav --tempo nan
