insideline handout "$CORPUS/ropewalk.musicxml" --tasks "$DATA/class.tasks" --ly -
