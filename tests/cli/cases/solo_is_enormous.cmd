truncate -s 2148000000 solo.musicxml
insideline analyze solo.musicxml --json solo.json
