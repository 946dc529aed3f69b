cp "$DATA/two_bars.musicxml" solo.musicxml
ended() { echo "$1: $?"; }
insideline analyze none.musicxml 2>&- || ended "closed, a missing file"
insideline analyze none.musicxml 2>/dev/full || ended "full, a missing file"
insideline analyze --none 2>&- || ended "closed, a wrong option"
insideline drill --changes "$DATA/quay_steps.changes" --range double-bass -o bass.mid >plan
insideline analyze bass.mid --changes "$DATA/quay_steps.changes" 2>&- | head -n 1
insideline analyze bass.mid --changes "$DATA/quay_steps.changes" 2>/dev/full | head -n 1
mkdir solos
mv solo.musicxml solos
insideline survey solos --db solos.db 2>&- >&- || ended "both closed, a survey"
insideline survey --report --db solos.db | head -n 1
