"""How often each finding was seen with each fault, and how far confidence came true."""
