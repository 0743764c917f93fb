"""What is wrong with a rulebook as a whole: each module finds one kind of fault."""
