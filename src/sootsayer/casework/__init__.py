"""One vehicle's visit: the case file, its entries, and the facts they give."""
