printf 'enclosures\nsuspensions\nSing it.\n' > my.tasks
insideline handout "$CORPUS/ropewalk.musicxml" --bars 1-2 --worksheet --tasks my.tasks --ly - | sed -n '/^.markup .section/,/^}/p'
