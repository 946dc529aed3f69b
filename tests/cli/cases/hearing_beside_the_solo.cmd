cp "$CORPUS/lantern-street.musicxml" "$CORPUS/lantern-street.changes" .
insideline analyze lantern-street.musicxml --hearing-out - --only-unsure
cat > lantern-street.hearing <<'END'
6 3.5 ninth                 # it is left hanging there
24 4.5 tension
31 2.5 root of the next chord
END
insideline analyze lantern-street.musicxml | head -n 7
insideline analyze lantern-street.musicxml --explain 24 | grep -A 4 'the and of 4'
insideline analyze lantern-street.musicxml --hearing-out - --only-unsure
insideline analyze lantern-street.musicxml --no-hearing | head -n 4
insideline analyze lantern-street.musicxml --json - | grep '"hearing": "lantern\|"pinned": true'
insideline analyze lantern-street.musicxml --html - | grep -o 'class="by-hand"' | wc -l
