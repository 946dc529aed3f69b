insideline handout "$CORPUS/lantern-street.musicxml" --one-page --answer-staff lines --worksheet --ly -
