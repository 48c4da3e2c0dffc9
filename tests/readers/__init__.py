"""Programs that people read workbooks with: what they load, what they lose, what they complain of.

``read.cjs`` loads a workbook in two readers of the JavaScript world and tells what they found;
``judge.py`` asks these and the validator of the file format's owner. ``tools/environment.sh``
fetches all of them beside the environment.
"""
