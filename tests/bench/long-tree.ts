/**
 * The text of a tree of so many steps: readings that lead on down the file, each fourth one to a finding of its own, so that every
 * step can be reached and every path ends. Always the same text for the same number.
 */
export function longTree(steps: number): string {
  const readings = Math.max(1, Math.round((steps - 1) * 0.8));
  const findings = Math.max(1, steps - 1 - readings);
  const sections: string[] = [];
  for (let n = 1; n <= readings; n += 1) {
    const next = n < readings ? `reading-${n + 1}` : 'stop';
    const finding = `finding-${Math.min(findings, Math.ceil(n / 4))}`;
    sections.push(`## Reading ${n}

<Reading takes="ac-voltage" across="R to C" minutes={1} />

Meter on AC volts. Red lead on **R**, black on **C**, at the control's own terminals. Reading ${n} of ${readings}.

<Next>

- below 2 V: [Finding](#${finding})
- 2 V to 85 % of coil-rated: [Stop](#stop)
- 85 % of coil-rated to 120 % of coil-rated: [On](#${next})
- otherwise: [Stop](#stop)

</Next>
`);
  }
  for (let n = 1; n <= findings; n += 1) {
    sections.push(`## Finding ${n}

<Finding faults="none" />

Nothing is wrong at this point of the circuit, and *nothing* is to be replaced. Finding ${n}.

<Repair>

1. Land every lead.
2. Look at the pad again.

</Repair>
`);
  }
  return `---
title: A long tree
complaint: Nothing runs.
facts:
  coil-rated: { quantity: ac-voltage, ask: Coil voltage on the label, usual: 24 V, from: 22 V, to: 28 V }
recheck: reading-1 is 85 % of coil-rated to 120 % of coil-rated
handoff: stop
---

Generated, to be read once from top to bottom.

<Caution signal="warning" about="line-voltage">

Line voltage stands behind the panel. Work to local code and the maker's instructions.

</Caution>

${sections.join('\n')}
## Stop

<Handoff to="the senior tech" />

Stop here and call.
`;
}
