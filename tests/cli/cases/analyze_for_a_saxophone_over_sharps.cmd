insideline analyze "$CORPUS/net-menders.musicxml" --for alto-sax --section 9-10 --bars 2>/dev/null | sed -n '/^Bar by bar/,/^$/p'
