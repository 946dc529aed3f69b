echo "Ebmaj7 Cm7" > solo.musicxml
insideline analyze solo.musicxml --json solo.json
