"""Values ↔ JSON: what the API takes and gives, and its description in OpenAPI 3.1 and JSON Schema."""
