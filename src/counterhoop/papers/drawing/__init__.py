"""The one drawing model: frozen records in millimetres, x along, y down."""
