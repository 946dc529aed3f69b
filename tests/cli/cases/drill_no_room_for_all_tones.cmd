printf 'title: two a bar\n| Bbmaj7 G7 | Cm7 F7 | Bm7b5 |\n' > two.changes
insideline drill --changes two.changes --arpeggios up --rhythm three-over-four --degrees -o up.ly | sed -n '/^What/,/^Tempo/p'
sed -n '/^degrees-below/,/^}/p' up.ly
insideline drill --changes two.changes --straight-down --degrees -o down.ly | sed -n '/^What/,/^Tempo/p'
sed -n '/^degrees-below/,/^}/p' down.ly
insideline drill --changes two.changes --cell 1-2-3-5 --degrees -o cell.ly | sed -n '/^What/,/^Tempo/p'
sed -n '/^degrees-below/,/^}/p' cell.ly
