"""Light dose, hanging plan and label rules."""
