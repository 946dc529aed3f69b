: > empty.musicxml
insideline analyze empty.musicxml --json solo.json
