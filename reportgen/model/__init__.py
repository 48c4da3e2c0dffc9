"""The model: what a season holds, declared once.

Reading order: ``fields.py`` (an input, and the kinds of field a record is made of),
``records.py`` (every record a season may hold, field by field), then the modules that bind
YAML nodes to them.

The declarations serve four readers: the YAML binding, the JSON Schema, the input columns of the
algebra's tables, and the input cells of the workbook with their validation.

May import ``read`` and ``units``.
"""
