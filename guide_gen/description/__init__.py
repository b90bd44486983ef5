"""Reading a description: YAML with places, the build model, problems worded for a person."""
