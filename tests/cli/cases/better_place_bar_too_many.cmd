sed "s/^| Ebmaj7     |/| Ebmaj7 | Ebmaj7 |/" "$CORPUS/lantern-street.changes" >long.changes
insideline analyze "$CORPUS/lantern-street.musicxml" --changes long.changes >/dev/null
