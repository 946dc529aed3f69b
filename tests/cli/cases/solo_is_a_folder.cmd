mkdir folder.musicxml
insideline analyze folder.musicxml --json solo.json
