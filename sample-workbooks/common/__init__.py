"""What all sheets share: how they look, and how long their texts are."""
