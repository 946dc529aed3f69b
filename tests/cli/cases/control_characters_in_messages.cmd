# A terminal would turn red, get another title, or be cleared.
red=$(printf '\033[31mred\033]0;title\007')
insideline analyze "$red.musicxml" || true
insideline analyze "$(printf 'two\nlines.musicxml')" || true
sed "s|Dm7|Dm7$(printf '\302\233')2J|" "$DATA/quay_steps.changes" >odd.changes
printf 'title: Quay %s\n' "$red" >named.changes
grep -v '^title' "$DATA/quay_steps.changes" >>named.changes
insideline drill --changes named.changes -o sheet.musicxml | head -n 1
insideline drill --changes odd.changes -o odd.musicxml
