"""The trade's quantities: by hand on small seasons, and by what must hold on any season.

``small.py`` reads a season from text; the ``test_by_hand_*`` files work examples with a pencil;
``test_properties.py`` asks of made-up seasons that nothing is lost, whatever the units and names.
"""
