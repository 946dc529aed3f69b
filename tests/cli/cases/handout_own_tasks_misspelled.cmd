printf 'thirds\nenclosurs\n' > my.tasks
insideline handout "$CORPUS/ropewalk.musicxml" --worksheet --tasks my.tasks --ly -
