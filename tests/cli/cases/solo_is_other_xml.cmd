echo "<recipe><salt/></recipe>" > solo.musicxml
insideline analyze solo.musicxml --json solo.json
