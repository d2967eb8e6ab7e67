"""How many fish, livewells or pens a wanted width takes."""
