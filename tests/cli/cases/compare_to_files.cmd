insideline compare "$CORPUS/ropewalk.musicxml" "$CORPUS/net-menders.musicxml" --json both.json --html both.html | head -n 1
head -n 5 both.json
head -c 15 both.html
