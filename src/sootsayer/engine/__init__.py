"""Forward chaining in three-valued logic. Pure: values in, values out."""
