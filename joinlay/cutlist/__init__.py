"""What to cut and what to buy: the cutting list, sheet and board layouts, shopping, costs, and changes between plans."""
