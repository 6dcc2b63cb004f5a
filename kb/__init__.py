"""What we know, and the code that loads, checks, matches and schedules it. Imports nothing from answers/.

plants/ problems/ rules/ places/ sources/   one YAML file per family; cautions, hand-offs and groups in one file each
tables/      numbers the calculators look up, with their source
entries.py   the fields of each entry          load.py   files -> Knowledge      check.py  faults across entries
match.py     which rules fit, and why          schedule.py   a window -> dates at a place
"""

from kb.load import Knowledge, load

__all__ = ["Knowledge", "load"]
