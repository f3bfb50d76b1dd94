# Findings: results of a check. Code of a finding: two letters of its subject and two digits (st-07); attributes .title, .remedy where there are.
