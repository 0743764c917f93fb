"""What can be proven of a rulebook that was read: its rules decide, differ, and can be answered."""
