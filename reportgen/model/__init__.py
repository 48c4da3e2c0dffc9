"""The model: what a season holds, declared once, and how it is bound to what was written.

Reading order: ``fields.py`` and ``kinds.py`` (an input, and the kinds of field a record is made
of), ``batches.py``, ``settings.py``, ``outlook.py``, ``product_data.py`` (every record, field by
field), ``records.py`` (all of them), ``season.py`` (what comes out); then ``load.py``, which is
the way from files to a season, and the modules it calls in its order; the folder ``power_log``
(what runs took, by their meters' logs); ``catalogue.py`` is the product data without a season.

The declarations serve four readers: the YAML binding, the JSON Schema, the input columns of the
algebra's tables, and the input cells of the workbook with their validation.

May import ``read`` and ``units``.
"""

from reportgen.model.load import load

__all__ = ["load"]
