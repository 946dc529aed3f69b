insideline handout "$CORPUS/ropewalk.musicxml" --bars 1-4 --key --tasks "$DATA/class.tasks" --ly - | sed -n '/^.markup .section/,/^}/p; /ringed #.circle/p'
