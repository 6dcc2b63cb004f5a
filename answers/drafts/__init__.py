"""Reading, rules and figures become words for a person to edit."""
