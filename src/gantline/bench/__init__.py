"""The bench: the rig shown with real rope, planned before and measured after."""
