"""Prints pages in Chromium and counts the sheets of A4: a keeper's is one, a clinic's two at most.
check_sheets.py FLINCH CHROMIUM FOLDER CASE...
"""

import os
import pathlib
import re
import subprocess
import sys

flinch, chromium, folder, *cases = sys.argv[1:]
made = pathlib.Path(folder)
made.mkdir(parents=True, exist_ok=True)
environment = {**os.environ, "SOURCE_DATE_EPOCH": "1795618800", "TZ": "UTC", "HOME": folder}
faults = []
for case in cases:
    name = pathlib.Path(case).parent.name + "-" + pathlib.Path(case).stem
    for reader, most in (("keeper", 1), ("clinician", 2)):
        page, sheet = made / f"{name}-{reader}.html", made / f"{name}-{reader}.pdf"
        subprocess.run([flinch, "report", case, "-o", page, "--for", reader], check=True, env=environment,
                       stdout=subprocess.DEVNULL)
        subprocess.run([chromium, "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer",
                        f"--print-to-pdf={sheet}", page.resolve().as_uri()], check=True, env=environment,
                       stderr=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
        sheets = len(re.findall(rb"/Type\s*/Page\b", sheet.read_bytes()))
        print(f"{name} {reader}: {sheets}")
        if not 1 <= sheets <= most:
            faults.append(f"{name} for the {reader} takes {sheets} sheets, {most} at most")
print("\n".join(faults))
sys.exit(bool(faults))
