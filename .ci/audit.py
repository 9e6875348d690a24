"""Audit what is installed against published advisories; fail for one that is known, and only then.

The service that publishes them (that of the package index) cannot be reached from everywhere, and a
check that fails for the weather is soon passed over: then it says so in one line and goes on.
"""

from __future__ import annotations

import json
import subprocess
import sys
from typing import Any

UNREACHED = "audit: the advisories could not be reached, so nothing was audited"


def judged(code: int, out: str) -> tuple[list[str], int]:
    """Return what to say of an audit's answer, and the code to end with: 1 for a known fault."""
    try:
        told: list[dict[str, Any]] = json.loads(out)["dependencies"]
    except (ValueError, KeyError, TypeError):
        return [f"{UNREACHED} (code {code})"], 0
    audited = [each for each in told if "skip_reason" not in each]
    faults = [
        f"audit: {each['name']} {each['version']}: {fault['id']}, "
        f"mended in {', '.join(fault['fix_versions']) or 'no version yet'}"
        for each in audited
        for fault in each["vulns"]
    ]
    if faults:
        return faults, 1
    if not audited:
        return [UNREACHED], 0
    left = len(told) - len(audited)
    return [f"audit: {len(audited)} packages, no advisory; {left} unknown to the service"], 0


def main(auditor: str, site_packages: str) -> int:
    """Run the auditor over a folder of installed packages, and say what came of it."""
    command = [auditor, "--format", "json", "--progress-spinner", "off", "--path", site_packages]
    try:
        made = subprocess.run(command, capture_output=True, text=True, check=False, timeout=300)
    except subprocess.TimeoutExpired:
        print(f"{UNREACHED} (no answer in five minutes)")
        return 0
    lines, code = judged(made.returncode, made.stdout)
    print("\n".join(lines))
    return code


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
